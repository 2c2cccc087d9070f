import { grouped } from '../text/grouped.ts';
import { isInside } from '../geometry/inside.ts';
import { composePoses, invertPose, type Pose, posePoint, poseVector } from '../geometry/pose.ts';
import { along, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { dot3, mix3, type Vec3 } from '../geometry/vec3.ts';
import type { FlatPanel } from '../model/flat.ts';
import type { Fold } from '../model/part.ts';
import { distanceToSlab, nearestOf, type Slab, slabOf } from '../fold/slab.ts';
import type { Seam } from '../welds/seam-along.ts';
import { seamsBetween } from '../welds/seams.ts';
import type { Assembly, PlacedPiece } from './assembly.ts';
import { joinedBody, type JoinedBody } from './joined-body.ts';

/**
 * How two edges or faces meet at a weld (butt, lap, tee, corner and edge joints as in AWS A3.0 and
 * ISO 17659, from memory). A `flange` is a lap of a flange that is folded on for it.
 */
export type JointKind = 'butt' | 'lap' | 'flange' | 'edge' | 'corner' | 'tee';

/** One straight stretch of a weld, in the coordinates of the whole. */
export interface WeldRun {
  readonly seam: Seam;
  /** Panels of the joined body, the one whose edge it is first. */
  readonly panels: readonly [string, string];
  readonly lengthMm: number;
  /** Clear distance of the metal on both sides, at the middle of the stretch. */
  readonly gapMm: number;
  /**
   * Places along the stretch on the metal of either panel, the middle first: of several at one
   * place, one lies on each face of the sheet and one between.
   */
  readonly places: readonly [readonly Vec3[], readonly Vec3[]];
}

/** A weld that has a letter: all stretches between two pieces and those like them, or within one. */
export interface Weld {
  readonly letter: string;
  /** Ids of the pieces, the one that stands first before the other; one twice for its own corners. */
  readonly pieces: readonly [string, string];
  readonly kind: JointKind;
  /** The turn of joining in which it is welded; 0 within a piece, before that is joined. */
  readonly turn: number;
  readonly lengthMm: number;
  readonly gapMm: readonly [least: number, most: number];
  readonly runs: readonly WeldRun[];
}

/** The welds of an assembly in the order of joining; letters run in that order. */
export const weldsOf = (assembly: Assembly, joined: JoinedBody = joinedBody(assembly)): Weld[] => {
  const { pieces } = assembly;
  const pieceAt = (panel: string): PlacedPiece => pieces[joined.pieceOf(panel)] as PlacedPiece;
  const may = (a: string, b: string): boolean =>
    joined.pieceOf(a) === joined.pieceOf(b)
      ? pieceAt(a).part.folds.every((fold) => fold.midSurface !== true)
      : areWelded(pieceAt(a), pieceAt(b));
  const seams = seamsBetween(joined.part, joined.flat, joined.body, may);
  const runs = [
    ...oneOfEachLap(seams.filter((seam) => !isInHole(joined, seam)))
      .map((seam) => runOf(joined, seam))
      .filter(({ run }) => isNearest(joined, run)),
    ...ringSeams(assembly, joined),
  ];
  const placeOf = (id: string): number => pieces.findIndex((piece) => piece.id === id);
  const idsOf = ({ panels }: WeldRun): readonly [string, string] =>
    panels.map((panel) => pieceAt(panel).id).toSorted((a, b) => placeOf(a) - placeOf(b)) as [
      string,
      string,
    ];
  // A ring meets what leans this way and that, and is one weld all round.
  const keyOf = ({ run, kind }: KindOfRun): string =>
    [...idsOf(run), run.panels.some((panel) => pieceAt(panel).isRolled) ? '' : kind].join(' ');
  return grouped(runs, keyOf)
    .map((group) => weldOf(pieces, idsOf(group[0]?.run as WeldRun), group))
    .toSorted(
      (a, b) =>
        a.turn - b.turn ||
        placeOf(a.pieces[1]) - placeOf(b.pieces[1]) ||
        placeOf(a.pieces[0]) - placeOf(b.pieces[0]),
    )
    .map((weld, i) => ({ ...weld, letter: letterOf(i) }));
};

/** The end of a tooth in its slot is welded over from behind, and is no stretch of the seam beside it. */
const isInHole = (joined: JoinedBody, { at, panels: [home, other] }: Seam): boolean => {
  const { part, body } = joined;
  const point = posePoint(body.poses.get(home) as Pose, [...at, part.thicknessMm / 2]);
  const [x, y, z] = posePoint(invertPose(body.poses.get(other) as Pose), point);
  const cutouts = part.panels.find(({ id }) => id === other)?.cutouts ?? [];
  return (
    Math.abs(z - part.thicknessMm / 2) < 1.5 * part.thicknessMm &&
    cutouts.some((cutout) => cutout.kind === 'loop' && isInside(cutout.loop, [x, y]))
  );
};

/** A panel that lies farther off than another of the same piece is not what is welded there. */
const isNearest = (
  joined: JoinedBody,
  { seam, panels: [home, other], gapMm }: WeldRun,
): boolean => {
  const piece = joined.pieceOf(other);
  if (joined.pieceOf(home) === piece) return true;
  const at = joined.body.poses.get(home) as Pose;
  const middle = posePoint(at, [...seam.at, joined.part.thicknessMm / 2]);
  return joined.flat.panels.every(({ id }) => {
    if (id === other || joined.pieceOf(id) !== piece) return true;
    const own = posePoint(invertPose(joined.body.poses.get(id) as Pose), middle);
    return distanceToSlab(slabNamed(joined, id), own) > gapMm / 2;
  });
};

/** A to Z, then AA; I and O are left out, since they are read as figures (common practice). */
export const letterOf = (i: number): string =>
  i < LETTERS.length
    ? LETTERS.charAt(i)
    : letterOf(Math.floor(i / LETTERS.length) - 1) + LETTERS.charAt(i % LETTERS.length);

const LETTERS = 'ABCDEFGHJKLMNPQRSTUVWXYZ';

const areWelded = (a: PlacedPiece, b: PlacedPiece): boolean =>
  a.weldedTo?.includes(b.id) !== false && b.weldedTo?.includes(a.id) !== false;

/** Of the edges of a lap the longest is enough; every other seam stands for itself. */
const oneOfEachLap = (seams: readonly Seam[]): Seam[] => [
  ...seams.filter(({ isLap }) => !isLap),
  ...grouped(
    seams.filter(({ isLap }) => isLap),
    ({ panels }) => panels.toSorted().join(' '),
  ).map((group) => group.toSorted((a, b) => Math.round(b.lengthMm - a.lengthMm))[0] as Seam),
];

interface KindOfRun {
  readonly run: WeldRun;
  readonly kind: JointKind;
}

const runOf = (joined: JoinedBody, seam: Seam): KindOfRun => {
  const { thicknessMm } = joined.part;
  const [home, other] = seam.panels.map((id) => slabNamed(joined, id)) as [Slab, Slab];
  const [at, there] = seam.panels.map((id) => joined.body.poses.get(id)) as [Pose, Pose];
  const toOther = composePoses(invertPose(there), at);
  const run = runOfSeam(seam);
  const pairs = SHARES.flatMap((share) =>
    [0.5, 0, 1].map((level): readonly [Vec3, Vec3] => {
      const own: Vec3 = [...along(seam.at, run, share * seam.lengthMm), level * thicknessMm];
      return [posePoint(at, own), posePoint(there, nearestOf(other, posePoint(toOther, own)))];
    }),
  );
  return {
    kind: kindOf(joined, seam, home, other, toOther),
    run: {
      seam,
      panels: seam.panels,
      lengthMm: seam.lengthMm,
      // That of the nearest of both faces and of the middle of the cut, half way along.
      gapMm: Math.min(...pairs.slice(0, 3).map(distance3)),
      places: [pairs.map(([own]) => own), pairs.map(([, met]) => met)],
    },
  };
};

/** Shares of a stretch from its middle, both ways in turn. */
const SHARES = [0, 0.2, -0.2, 0.38, -0.38];

/** The direction of a seam in the plane of its home. */
const runOfSeam = ({ sides: [side] }: Seam): Vec2 =>
  side === undefined ? [1, 0] : unit(sub([side.to[0], side.to[1]], [side.from[0], side.from[1]]));

const distance3 = ([p, q]: readonly [Vec3, Vec3]): number =>
  Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);

const slabNamed = ({ flat, part }: JoinedBody, id: string): Slab =>
  slabOf(flat.panels.find((p) => p.id === id) as FlatPanel, part.thicknessMm);

/** Panels nearer to one plane than this, as the cosine, lie in it or on each other. */
const LEVEL_COSINE = 0.98;

const kindOf = (
  joined: JoinedBody,
  seam: Seam,
  home: Slab,
  other: Slab,
  toOther: Pose,
): JointKind => {
  const isLevel = Math.abs(toOther.z[2]) > LEVEL_COSINE;
  if (isLevel && !seam.isLap) return 'butt';
  if (seam.isLap) {
    if (endsThere(joined, seam, home, other, toOther)) return 'edge';
    return isFlange(joined, seam.panels[0]) || isFlange(joined, seam.panels[1]) ? 'flange' : 'lap';
  }
  const [a, b] = seam.sides;
  // Welded from outside and from inside of one corner, or from both sides of an upright panel.
  return a !== undefined && b !== undefined && dot3(a.towards, b.towards) > -LEVEL_COSINE
    ? 'tee'
    : 'corner';
};

/** Whether the panel below a lapping edge ends where that edge does. */
const endsThere = (
  { part }: JoinedBody,
  seam: Seam,
  home: Slab,
  other: Slab,
  toOther: Pose,
): boolean => {
  const run = runOfSeam(seam);
  const left: Vec2 = [-run[1], run[0]];
  const out: Vec2 = isInside(home.outline, along(seam.at, left, part.thicknessMm))
    ? [-left[0], -left[1]]
    : left;
  const [x, y] = posePoint(toOther, [...along(seam.at, out, 1.1 * part.thicknessMm), 0]);
  return !isInside(other.outline, [x, y]);
};

/** A panel that is folded on a larger one. */
const isFlange = ({ part, flat }: JoinedBody, panel: string): boolean => {
  const areaOf = (id: string): number => flat.panels.find((p) => p.id === id)?.areaMm2 ?? 0;
  return part.folds.some(
    ({ parent, child }: Fold) =>
      (child.panel === panel && areaOf(parent.panel) > areaOf(panel)) ||
      (parent.panel === panel && areaOf(child.panel) > areaOf(panel)),
  );
};

const weldOf = (
  pieces: readonly PlacedPiece[],
  [a, b]: readonly [string, string],
  group: readonly KindOfRun[],
): Weld => {
  const runs = group.map(({ run }) => run);
  const gaps = runs.map(({ gapMm }) => gapMm);
  const turnOf = (id: string): number => pieces.find((piece) => piece.id === id)?.turn ?? 1;
  const isRing = pieces.some(({ id, isRolled }) => isRolled && (id === a || id === b));
  return {
    letter: '',
    pieces: [a, b],
    // What meets a ring leans this way and that, but ends at it edge to edge.
    kind: isRing ? 'butt' : (group[0]?.kind ?? 'butt'),
    turn: a === b ? 0 : Math.max(turnOf(a), turnOf(b)),
    lengthMm: runs.reduce((sum, { lengthMm }) => sum + lengthMm, 0),
    gapMm: [Math.min(...gaps), Math.max(...gaps)],
    runs,
  };
};

/** The seam in which the two ends of a rolled strip meet. */
const ringSeams = ({ pieces }: Assembly, joined: JoinedBody): KindOfRun[] =>
  pieces.flatMap((piece, i): KindOfRun[] => {
    if (!piece.isRolled) return [];
    const own = joined.part.panels.filter(({ id }) => joined.pieceOf(id) === i);
    const [first, last] = [own[0], own.at(-1)];
    if (first === undefined || last === undefined) return [];
    // In the other hand the strip is rolled from its right end.
    const isTurned = slabNamed(joined, last.id).low[0] < slabNamed(joined, first.id).low[0];
    const ends = [first, last].map(({ id }, k) =>
      endOf(joined, id, (k === 0) !== isTurned ? 'left' : 'right'),
    );
    const [start, end] = ends as [PanelEnd, PanelEnd];
    const seam: Seam = {
      name: 'where the ring closes',
      panels: [first.id, last.id],
      home: first.id,
      lengthMm: start.lengthMm,
      sides: start.sides,
      at: start.at,
      isLap: false,
    };
    const run = {
      seam,
      panels: seam.panels,
      lengthMm: seam.lengthMm,
      gapMm: distance3([start.middle, end.middle]),
      places: [[start.middle], [end.middle]],
    } as const;
    return [{ kind: 'butt', run }];
  });

interface PanelEnd extends Pick<Seam, 'sides' | 'at' | 'lengthMm'> {
  readonly middle: Vec3;
}

const endOf = (joined: JoinedBody, id: string, edge: 'left' | 'right'): PanelEnd => {
  const { low, high, thicknessMm } = slabNamed(joined, id);
  const x = edge === 'left' ? low[0] : high[0];
  const y = (low[1] + high[1]) / 2;
  const line = (z: number): { readonly from: Vec3; readonly to: Vec3 } => ({
    from: [x, low[1], z],
    to: [x, high[1], z],
  });
  return {
    at: [x, y],
    lengthMm: high[1] - low[1],
    sides: [
      { ...line(thicknessMm), towards: [0, 0, 1] },
      { ...line(0), towards: [0, 0, -1] },
    ],
    middle: posePoint(joined.body.poses.get(id) as Pose, [x, y, thicknessMm / 2]),
  };
};

/** The two ends of a stretch and the way to one of the sides it can be welded from, in the whole. */
export const runInWhole = (
  { body }: JoinedBody,
  { seam }: WeldRun,
  side: number,
): { readonly from: Vec3; readonly to: Vec3; readonly middle: Vec3; readonly towards: Vec3 } => {
  const pose = body.poses.get(seam.home) as Pose;
  const own = seam.sides[side] ?? seam.sides[0];
  if (own === undefined) throw new Error(`no side of ${seam.name}`);
  const [from, to] = [posePoint(pose, own.from), posePoint(pose, own.to)];
  return { from, to, middle: mix3(from, 0.5, to, 0.5), towards: poseVector(pose, own.towards) };
};
