import { foldUp } from '../../src/fold/fold-up.ts';
import { type Loop, polygon, type Vertex } from '../../src/geometry/loop.ts';
import { signedArea } from '../../src/geometry/measure.ts';
import { AT_HOME, composePoses, invertPose, type Pose } from '../../src/geometry/pose.ts';
import { distance, type Vec2 } from '../../src/geometry/vec2.ts';
import type { FlatBend, FlatCutout, FlatPanel, FlatPattern } from '../../src/model/flat.ts';
import type { Part } from '../../src/model/part.ts';
import type { Solid, Solids } from './solid.ts';

/** A part folded up from its blank, in the coordinates of its root panel. */
export interface FoldedSolid {
  readonly panels: ReadonlyMap<string, Solid>;
  /** The bends whose metal is a rectangle of the blank, as pieces of hollow cylinders. */
  readonly bends: ReadonlyMap<string, Solid>;
}

/**
 * Cuts the blank along the tangent lines of its bends into pieces, and puts each in its place on
 * the folded part. A bend with slanted or relieved ends is left out, since the kernel has no such
 * surfaces.
 */
export const foldBlank = (solids: Solids, part: Part, flat: FlatPattern): FoldedSolid => {
  const { poses } = foldUp(part, flat);
  const blank = blankSolid(solids, flat);
  const places = new Map(
    flat.panels.map((p) => [p.id, composePoses(poses.get(p.id) as Pose, invertPose(asPose(p)))]),
  );
  const pieces = cutApart(solids, flat, blank);
  const panels = [...pieces].map(
    ([id, piece]) => [id, solids.move(piece, places.get(id) as Pose)] as const,
  );
  const bends = flat.bends
    .filter((bend) => isWholeRectangle(solids, flat, blank, bend))
    .map(
      (bend) =>
        [
          bend.id,
          solids.move(bentZone(solids, flat, bend), places.get(bend.parent) as Pose),
        ] as const,
    );
  return { panels: new Map(panels), bends: new Map(bends) };
};

const asPose = ({ placement: m }: FlatPanel): Pose => ({
  o: [m.x, m.y, 0],
  x: [m.c, m.s, 0],
  y: [-m.s, m.c, 0],
  z: [0, 0, 1],
});

/**
 * The panels of a part whose folds all lie on the middle of the sheet, each as a flat plate in its
 * place; along a fold two of them run into each other or gape.
 */
export const creasedPanels = (
  solids: Solids,
  part: Part,
  flat: FlatPattern,
): ReadonlyMap<string, Solid> => {
  const { poses } = foldUp(part, flat);
  return new Map(
    part.panels.map(({ id, outline }) => [
      id,
      solids.move(solids.prism(outline, flat.thicknessMm), poses.get(id) as Pose),
    ]),
  );
};

/**
 * The frame in which the folded part is measured: its largest panel lies as it does in the drawing.
 */
export const seatOnLargest = (part: Part, flat: FlatPattern): Pose => {
  const largest = flat.panels.reduce((best, p) => (p.areaMm2 > best.areaMm2 ? p : best));
  return composePoses(
    asPose(largest),
    invertPose(foldUp(part, flat).poses.get(largest.id) as Pose),
  );
};

export const blankSolid = (solids: Solids, flat: FlatPattern): Solid =>
  solids.cut(
    solids.prism(flat.outline, flat.thicknessMm),
    flat.cutouts.map((c) => through(solids, flat, holeLoop(c))),
  );

const holeLoop = (c: FlatCutout): Loop =>
  c.kind === 'loop'
    ? c.loop
    : [-0.5, 0.5].map((side): Vertex => ({
        x: c.centre[0] + side * c.diameterMm,
        y: c.centre[1],
        bulge: 1,
      }));

/** A punch of the given outline that goes through the sheet and out on both sides. */
const through = (solids: Solids, flat: FlatPattern, loop: Loop): Solid =>
  solids.move(solids.prism(loop, 3 * flat.thicknessMm), {
    ...AT_HOME,
    o: [0, 0, -flat.thicknessMm],
  });

/**
 * The zone between the tangent lines, counter-clockwise: the child lies on the right of the
 * parent's tangent line.
 */
const zoneOf = ({ parentTangent: [p, q], childTangent: [c, d] }: FlatBend): Loop =>
  polygon(p, c, d, q);

/**
 * Shares of a tangent line at which pieces that end at it are looked for, since a relief may have
 * taken a stretch of the line.
 */
const SHARES = [0.5, 0.3, 0.7, 0.1, 0.9, 0.2, 0.8, 0.4, 0.6, 0.03, 0.97];

const along = ([p, q]: readonly [Vec2, Vec2], share: number): Vec2 => [
  p[0] + share * (q[0] - p[0]),
  p[1] + share * (q[1] - p[1]),
];

/** The pieces of the blank without its bends, each with the tangent line at which it ends. */
const cutApart = (solids: Solids, flat: FlatPattern, blank: Solid): Map<string, Solid> => {
  const pieces = solids
    .bodies(
      solids.cut(
        blank,
        flat.bends.map((bend) => through(solids, flat, zoneOf(bend))),
      ),
    )
    .map((piece) => ({ piece, box: solids.box(piece) }));
  const [only, alone] = [flat.panels[0], pieces[0]];
  if (pieces.length !== flat.panels.length || only === undefined || alone === undefined) {
    throw new Error(`${flat.name}: ${pieces.length} pieces for ${flat.panels.length} panels`);
  }
  if (flat.bends.length === 0) return new Map([[only.id, alone.piece]]);
  const piecesAt = (at: Vec2): Solid[] =>
    pieces
      .filter(({ box: { low, high } }) =>
        ([0, 1] as const).every((i) => at[i] > low[i] - 1e-6 && at[i] < high[i] + 1e-6),
      )
      .map(({ piece }) => piece)
      .filter((piece) => solids.distanceTo(piece, [...at, 0]) < 1e-6);
  const known = new Map<string, Solid>();
  const name = (id: string, tangent: readonly [Vec2, Vec2]): void => {
    const found = SHARES.map((share) => piecesAt(along(tangent, share))).find((f) => f.length > 0);
    const [piece] = found ?? [];
    if (piece === undefined || found?.length !== 1)
      throw new Error(`${flat.name}: ${found?.length ?? 0} pieces end at a tangent line of ${id}`);
    if (known.has(id) && known.get(id) !== piece)
      throw new Error(`${flat.name}: ${id} is in two pieces`);
    known.set(id, piece);
  };
  for (const bend of flat.bends) {
    name(bend.parent, bend.parentTangent);
    name(bend.child, bend.childTangent);
  }
  return known;
};

const isWholeRectangle = (
  solids: Solids,
  flat: FlatPattern,
  blank: Solid,
  bend: FlatBend,
): boolean => {
  const {
    parentTangent: [p, q],
    childTangent: [c, d],
    allowanceMm,
  } = bend;
  const square =
    Math.abs(distance(p, c) - allowanceMm) < 1e-9 && Math.abs(distance(q, d) - allowanceMm) < 1e-9;
  const zone = zoneOf(bend);
  return (
    square &&
    Math.abs(
      solids.commonVolume(blank, through(solids, flat, zone)) - signedArea(zone) * flat.thicknessMm,
    ) < 1e-6
  );
};

/**
 * The bent zone: a ring's sector over the length of the fold, in the drawing's coordinates of the
 * parent.
 */
const bentZone = (solids: Solids, { thicknessMm: t }: FlatPattern, bend: FlatBend): Solid => {
  const {
    parentTangent: [p, q],
    insideRadiusMm: r,
    angleDeg,
  } = bend;
  const up = bend.direction === 'up';
  const angle = (angleDeg * Math.PI) / 180;
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  const [axis, below, above] = up ? [t + r, r + t, r] : [-r, -r, -r - t];
  const bulge = (up ? 1 : -1) * Math.tan(angle / 4);
  const sector: Vertex[] = [
    { x: 0, y: 0, bulge },
    { x: Math.abs(below) * sin, y: axis - below * cos, bulge: 0 },
    { x: Math.abs(above) * sin, y: axis - above * cos, bulge: -bulge },
    { x: 0, y: t, bulge: 0 },
  ];
  const length = distance(p, q);
  const [dx, dy] = [(q[0] - p[0]) / length, (q[1] - p[1]) / length];
  const pose: Pose = { o: [...q, 0], x: [dy, -dx, 0], y: [0, 0, 1], z: [-dx, -dy, 0] };
  return solids.move(solids.prism(withoutRepeats(sector), length), pose);
};

/** The loop without doubled points: without radius the sector's inside is one point. */
const withoutRepeats = (loop: readonly Vertex[]): Loop =>
  loop.filter((v, i) => {
    const next = loop[(i + 1) % loop.length] as Vertex;
    return Math.hypot(next.x - v.x, next.y - v.y) > 1e-9;
  });
