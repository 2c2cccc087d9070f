import { HEM_DEG } from '../../bending/hem.ts';
import { foldPose, makeJoint } from '../../fold/joint.ts';
import { tanDeg } from '../../geometry/degrees.ts';
import { convexPieces } from '../../geometry/convex-pieces.ts';
import { compose, invert, type Motion2, movePoint } from '../../geometry/motion2.ts';
import { composePoses, invertPose, type Pose, flatPose } from '../../geometry/pose.ts';
import { along, distance, leftOf, middle, scale, type Vec2 } from '../../geometry/vec2.ts';
import type { FlatBend, FlatPanel, FlatPattern } from '../../model/flat.ts';
import { type Fold, type Part, slotsTaken } from '../../model/part.ts';
import { isFormed } from './is-formed.ts';
import { type FoldLine, foldLines } from './folds-in-line.ts';
import { type FoldNet, type NetFold, type NetPanel } from '../machines/net.ts';
import { isCrease } from '../machines/helps.ts';
import { STEEPEST_DEG } from '../machines/pre-fold.ts';
import { inset, keepLeft } from '../../geometry/convex-polygon.ts';
import { placeSolid, prism, type Solid } from '../../geometry/convex-solid.ts';
import { PANEL_CHORD_MM, CONTACT_GAP_MM } from '../../geometry/tolerance.ts';

/**
 * How far a hem is swung before it is pressed flat: the practical limit that dealers of manual
 * folders quote.
 */
export const HEM_SWING_DEG = 120;

/** A part as the planner sees it, and the folds that it leaves to be made by hand. */
export interface PartNet {
  readonly net: FoldNet;
  /** Slotted folds and those round a former, made by hand after all the others. */
  readonly byHand: readonly Fold[];
}

/**
 * The flat panels of a part with their thickness, in their places in the blank and in the finished
 * part, with bends allowed for. During a stroke the swung side turns about the crossing of the
 * outside faces, which is where the hinge of the leaf lies and the V is deepest. It therefore ends
 * exactly where it belongs, and begins a deduction further out than where it lies. The bent metal
 * itself is left out, because it lies within the tools' noses. Panels joined by slotted folds, by
 * bends round a former or by folds of no angle count as one.
 *
 */
export function partNet(
  part: Part,
  flat: FlatPattern,
  {
    mostDeg = 180,
    overbendOf = () => 0,
    noseRadiusOf = () => 0,
    leastFlangeOf = () => 0,
    isByHand = (f) => f.slots !== undefined || isFormed(f, undefined, part.thicknessMm),
  }: FoldedOn = {},
): PartNet {
  const folds = part.folds.filter((f) => f.angleDeg > 0 && !isByHand(f));
  const rigid = part.folds.filter((f) => !folds.includes(f));
  const homes = homesOf(
    flat,
    rigid.map(({ parent, child }) => [parent.panel, child.panel]),
  );
  // Only where there are too many folds to try all orders of them, rows of them are taken together.
  const isMany = folds.length > MANY_FOLDS;
  const lines = isMany
    ? foldLines(folds, flat, (panel) => homes.get(panel) as string)
    : folds.map((f): FoldLine => ({ folds: [f], centreLine: bendOf(flat, f).centreLine }));
  for (const {
    folds: [first, ...more],
  } of lines)
    for (const { child } of more) unite(homes, first?.child.panel ?? '', child.panel);
  const ids = [...new Set(homes.values())];
  const numberOf = (panel: string): number => ids.indexOf(homes.get(panel) as string);
  return {
    net: {
      thicknessMm: part.thicknessMm,
      isSolid: true,
      panels: ids.map((id) =>
        netPanel(
          id,
          flat.panels.filter((p) => homes.get(p.id) === id),
          part,
          flat,
        ),
      ),
      folds: lines.map((line) => {
        const [first] = line.folds as readonly [Fold, ...Fold[]];
        return netFold(
          { part, flat, homes, mostDeg, overbendOf, noseRadiusOf, leastFlangeOf },
          line,
          [numberOf(first.parent.panel), numberOf(first.child.panel)],
        );
      }),
    },
    byHand: rigid.filter((f) => f.angleDeg > 0),
  };
}

/** The home of every panel: the first of the panels that it stays flat with. */
const homesOf = (
  flat: FlatPattern,
  rigid: readonly (readonly [string, string])[],
): Map<string, string> => {
  const homes = new Map(flat.panels.map((p) => [p.id, p.id]));
  for (const [parent, child] of rigid) unite(homes, parent, child);
  return homes;
};

/** Gives two panels, and all that stay flat with either, the home of the first. */
const unite = (homes: Map<string, string>, first: string, second: string): void => {
  const [kept, gone] = [homes.get(first) as string, homes.get(second) as string];
  for (const [panel, home] of homes) if (home === gone) homes.set(panel, kept);
};

/** The most folds of which each is planned by itself: states are sets of folds. */
const MANY_FOLDS = 20;

const bendOf = (flat: FlatPattern, { id }: Fold): FlatBend =>
  flat.bends.find((b) => b.id === id) as FlatBend;

const placementOf = (flat: FlatPattern, id: string): Motion2 =>
  (flat.panels.find((p) => p.id === id) as FlatPanel).placement;

/** Takes a panel's coordinates to those of its home, both lying flat. */
const toHome = (flat: FlatPattern, home: string, panel: string): Pose =>
  flatPose(compose(invert(placementOf(flat, home)), placementOf(flat, panel)));

const netPanel = (
  id: string,
  members: readonly FlatPanel[],
  part: Part,
  flat: FlatPattern,
): NetPanel => {
  const { thicknessMm } = part;
  const home = (members.find((m) => m.id === id) as FlatPanel).placement;
  const skin = Math.min(CONTACT_GAP_MM, thicknessMm / 2);
  const bodies = members.map(({ id: member, region, placement }) => {
    const slots = slotsTaken(part.panels.find((panel) => panel.id === member));
    const pieces = convexPieces(region, PANEL_CHORD_MM, slots)
      .map((piece) => besideBends(piece, part, flat, member))
      .filter((piece) => piece.length > 2);
    const place = (s: Solid): Solid => placeSolid(flatPose(compose(invert(home), placement)), s);
    const less = pieces.map((p) => inset(p, () => CONTACT_GAP_MM)).filter((p) => p.length > 2);
    return {
      solids: pieces.map((p) => place(prism(p, 0, thicknessMm))),
      lessGap: less.map((p) => place(prism(p, skin, thicknessMm - skin))),
    };
  });
  return {
    id,
    solids: bodies.flatMap((b) => b.solids),
    lessGap: bodies.flatMap((b) => b.lessGap),
    areaMm2: members.reduce((sum, m) => sum + m.areaMm2, 0),
  };
};

/**
 * A piece of a panel without the metal that its folds on the middle of the sheet bend: half the
 * arc there, (r + t / 2) A / 2, on its side of each line. On paper such panels reach to the line.
 */
const besideBends = (
  piece: readonly Vec2[],
  part: Part,
  flat: FlatPattern,
  panel: string,
): readonly Vec2[] =>
  part.folds.reduce<readonly Vec2[]>((left, fold) => {
    const isParent = fold.parent.panel === panel;
    if (fold.midSurface !== true || (!isParent && fold.child.panel !== panel)) return left;
    const joint = makeJoint(part, fold, bendOf(flat, fold));
    const [at, dir] = isParent
      ? [joint.parentAt, joint.parentDir]
      : [joint.childAt, joint.childDir];
    const halfMm = ((fold.insideRadiusMm + part.thicknessMm / 2) * fold.angleDeg * Math.PI) / 360;
    return keepLeft(left, along(at, leftOf(dir), halfMm), dir);
  }, piece);

/** How the machine folds. */
export interface FoldedOn {
  /** The steepest fold of the machine; a hem is swung no further. */
  readonly mostDeg?: number | undefined;
  /** How far past its angle the swing of a fold has to be free, and no further. */
  readonly overbendOf?: (fold: Fold) => number;
  /** Radius of the nose that a fold is made about; sharp when left out. */
  readonly noseRadiusOf?: (fold: Fold) => number;
  /** Least flange that the leaf can fold, mm from the hinge; 0 when left out. */
  readonly leastFlangeOf?: (fold: Fold) => number;
  /** Whether a fold is left to the hands; those in slots and those round a former when left out. */
  readonly isByHand?: (fold: Fold) => boolean;
}

interface Whole extends Required<Omit<FoldedOn, 'isByHand'>> {
  readonly part: Part;
  readonly flat: FlatPattern;
  readonly homes: ReadonlyMap<string, string>;
  readonly mostDeg: number;
}

function netFold(
  { part, flat, homes, mostDeg, overbendOf, noseRadiusOf, leastFlangeOf }: Whole,
  { folds, centreLine }: FoldLine,
  panels: readonly [number, number],
): NetFold {
  const [fold] = folds as readonly [Fold, ...Fold[]];
  const bend = { ...bendOf(flat, fold), centreLine };
  const joint = makeJoint(part, fold, bend);
  const up = fold.direction === 'up';
  const swungDeg = fold.angleDeg >= HEM_DEG ? Math.min(HEM_SWING_DEG, mostDeg) : fold.angleDeg;
  const [parent, child] = [fold.parent.panel, fold.child.panel];
  const ways = [
    toHome(flat, homes.get(parent) as string, parent),
    toHome(flat, homes.get(child) as string, child),
  ] as const;
  const frame = (edge: Vec2, panel: string): Pose =>
    frameOn(edge, placementOf(flat, panel), bend, up, { thicknessMm: part.thicknessMm, swungDeg });
  // The way between homes goes up to the panel at the fold, over the fold, and up again.
  const between = (pose: Pose): Pose =>
    composePoses(composePoses(ways[0], pose), invertPose(ways[1]));
  const heading = turned(placementOf(flat, parent), awayFrom(joint.parentDir));
  return {
    id: folds.map((f) => f.id).join(' + '),
    ...(folds.length > 1 && { ids: folds.map((f) => f.id) }),
    panels,
    angleDeg: swungDeg,
    overbendDeg: fold.angleDeg >= HEM_DEG ? 0 : overbendOf(fold),
    insideRadiusMm: fold.insideRadiusMm,
    noseRadiusMm: noseRadiusOf(fold),
    leastFlangeMm: Math.max(...folds.map(leastFlangeOf)),
    ...(isCrease(fold) && { isCrease: true }),
    allowanceMm: bend.midSurface === true ? 0 : bend.allowanceMm,
    up,
    frames: [
      composePoses(ways[0], frame(joint.parentDir, parent)),
      composePoses(ways[1], frame(joint.childDir, child)),
    ],
    lengthMm: distance(...bend.centreLine),
    flat: between(flatPose(compose(invert(placementOf(flat, parent)), placementOf(flat, child)))),
    folded: between(foldPose(joint)),
    headingDeg: ((((Math.atan2(heading[1], heading[0]) * 180) / Math.PI) % 360) + 360) % 360,
    middle: middle(...bend.centreLine),
  };
}

/** Panels run counter-clockwise, with their metal on the left of an edge. */
const awayFrom = (edge: Vec2): Vec2 => scale(leftOf(edge), -1);

const turned = ({ c, s }: Motion2, [x, y]: Vec2): Vec2 => [c * x - s * y, s * x + c * y];

/** A frame on the outside face of the bend, in a panel's own coordinates. */
const frameOn = (
  edge: Vec2,
  placement: Motion2,
  bend: FlatBend,
  up: boolean,
  { thicknessMm, swungDeg }: { readonly thicknessMm: number; readonly swungDeg: number },
): Pose => {
  const [ox, oy] = awayFrom(edge);
  // The distance from the middle of the bend to where the outside faces cross when it is swung: (r
  // + t) tan(A/2) from its tangent lines. For steeper bends the crossing runs away.
  // Panels on the middle of the sheet turn about their line there, half a thickness over that face.
  const beyond =
    (bend.midSurface === true ? thicknessMm / 2 : bend.insideRadiusMm + thicknessMm) *
      tanDeg(Math.min(swungDeg, STEEPEST_DEG) / 2) -
    bend.allowanceMm / 2;
  const at = along(movePoint(invert(placement), middle(...bend.centreLine)), [ox, oy], beyond);
  const sign = up ? 1 : -1;
  return {
    o: [at[0], at[1], up ? 0 : thicknessMm],
    x: [ox, oy, 0],
    y: [0, 0, sign],
    z: [sign * oy, -sign * ox, 0],
  };
};
