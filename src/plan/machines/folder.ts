import type { Folder, FolderSection, Section } from '../../model/machine.ts';
import { add, type Vec2 } from '../../geometry/vec2.ts';
import { CONTACT_GAP_MM } from '../../geometry/tolerance.ts';
import { bodiesOf } from './bodies.ts';
import { LEAST_LAND_SHARE, PACKER_DEPTH_MM, PACKER_MM, SPRING_MM } from './helps.ts';
import { clearedRadiusMm, noseGapMm, noseSection, tangentBehindHingeMm } from './nose.ts';
import {
  type BodyCheck,
  type Help,
  MOVING,
  NO_SHEET,
  type Sheet,
  STILL,
  type StrokeRules,
  type Side,
} from './stroke-rules.ts';

/**
 * How far the upper beam reaches up from its underside, mm. The figure is illustrative: nothing
 * reaches over the beam of a small folder.
 */
const BEAM_HEIGHT_MM = 120;
/** How far the bed reaches down, mm. */
const BED_HEIGHT_MM = 300;

/**
 * The polygons of a folder from its dimensions, convex pieces, mm. The clamp stands on the sheet,
 * set for its bend.
 */
export function folderBodies(m: Folder, sheet: Sheet = NO_SHEET): FolderSection {
  // The nose rests on the tangent line of the bend. For a part on the middle plane it stands where
  // the machine's description puts it.
  const radiusMm = clearedRadiusMm(sheet, sheet.swungDeg ?? sheet.angleDeg, sheet.noseRadiusMm);
  const gapMm = sheet.thicknessMm > 0 ? noseGapMm(sheet, radiusMm) : m.noseSetbackMm.value;
  const atNose = (piece: Section): Section => moved(piece, [-gapMm, sheet.thicknessMm]);
  const { bed, leaf, clamp, beam } = m.section ?? sectionFrom(m, radiusMm);
  return { bed, leaf, clamp: clamp.map(atNose), beam: beam.map(atNose) };
}

const moved = (piece: Section, by: Vec2): Section => piece.map((p) => add(p, by));

/** The section of a folder, from the dimensions that a rule and a square measure. */
function sectionFrom(m: Folder, noseRadiusMm: number): FolderSection {
  const depth = m.noseDepthMm.value;
  const nose = noseSection(m, noseRadiusMm);
  const [front, bevel] = nose.reduce((a, b) =>
    b[1] > a[1] || (b[1] === a[1] && b[0] > a[0]) ? b : a,
  );
  const edge = m.isLeafBarFitted.value
    ? m.leafEdgeMm.value.barFitted
    : m.leafEdgeMm.value.barRemoved;
  const { projection, startsBelow, endsBelow } = m.stiffenerMm.value;
  return {
    bed: [box(-m.bedDepthMm.value, -BED_HEIGHT_MM, 0, 0)],
    leaf: [box(0, -endsBelow, edge, 0), box(0, -endsBelow, projection, -startsBelow)],
    clamp: [nose, box(-depth, bevel, front, m.clampHeightMm.value)],
    beam:
      m.clamp.kind === 'one piece'
        ? []
        : [
            box(
              -m.clamp.beamDepthMm.value,
              m.clamp.boxDepthMm.value,
              -m.noseFrontMm.value,
              m.clamp.boxDepthMm.value + BEAM_HEIGHT_MM,
            ),
          ],
  };
}

const box = (left: number, low: number, right: number, high: number): Section => [
  [left, low],
  [right, low],
  [right, high],
  [left, high],
];

/**
 * The rules of a stroke on a folder. The clamped side stays still; the other lies on the leaf and
 * turns with it. The leaf is one piece and bends everything in front of the bed edge. The rules are
 * derived from the section, as its author describes it. A fold that is made in part stands at
 * `startDeg` at the start, and the leaf comes up to it from its rest.
 */
export function folderRules(
  m: Folder,
  angleDeg: number,
  sheet: Sheet,
  startDeg = 0,
  help?: Help,
): StrokeRules {
  const swingDeg = angleDeg + m.overbendDeg.value;
  const isFingers = m.clamp.kind === 'fingers';
  const most = m.maxAngleDeg?.value;
  return {
    swingDeg,
    startDeg,
    stillStartDeg: 0,
    checks: folderChecks(m, sheet, { swingDeg, startDeg, help }).filter((c) => c.bodies.length > 0),
    stripMm: leastStripsMm(m, sheet, help === undefined ? 1 : LEAST_LAND_SHARE),
    gripMm: (sheet.thicknessMm > 0 ? tangentBehindHingeMm(sheet) : 0) + SAFE_GRIP_MM,
    turns: [0, 1],
    carriedMm: [-m.bedDepthMm.value, 0],
    holder:
      m.clamp.kind === 'fingers'
        ? {
            kind: 'fingers',
            widthsMm: m.clamp.widthsMm.value,
            sideClearMm: m.clamp.sideClearMm.value,
            mostUncoveredMm: 2 * m.maxUncoveredMm.value,
          }
        : { kind: 'one piece', endOverhang: m.clamp.endOverhang.value },
    sayInTheWay: (panel) =>
      isFingers
        ? `${panel} occupies the finger space along the fold (standing there or sweeping through it)`
        : `${panel} stands where the clamp beam has to lie along the fold`,
    ...(most !== undefined &&
      angleDeg > most && { beyond: `${angleDeg} deg is more than the machine's ${most} deg` }),
    ...(help !== undefined && { help }),
  };
}

/** A grip smaller than this lets a sheet turn under the clamp, mm (common practice). */
const SAFE_GRIP_MM = 25;

/** Flat sheet beyond the bend that bears on the leaf, in thicknesses (common practice). */
const BEARING = 2;

/**
 * Least strips of flat sheet, mm from the hinge. The clamp's land is counted from where the nose
 * rests, on the tangent line of the bend. The flange has to reach beyond the other tangent line, and
 * to be long enough for the leaf to push, which in a crease the whole fan beyond it is. For a part on
 * the middle plane the bend takes no room.
 */
const leastStripsMm = (
  m: Folder,
  sheet: Sheet,
  landShare: number,
): readonly [still: number, moving: number] => {
  const tangentMm = sheet.thicknessMm > 0 ? tangentBehindHingeMm(sheet) : 0;
  return [
    tangentMm + landShare * m.clampLandMm.value,
    sheet.isCrease === true
      ? tangentMm
      : Math.max(
          m.minFlangeMm?.value ?? 0,
          tangentMm + BEARING * sheet.thicknessMm,
          sheet.leastFlangeMm ?? 0,
        ),
  ];
};

/** A stroke from one angle to another, degrees, and what helps at it. */
interface Swing {
  readonly swingDeg: number;
  readonly startDeg: number;
  readonly help: Help | undefined;
}

/**
 * The checks where the part hangs off the machine's end: whatever would meet bed, leaf or beam may do
 * so beyond that end, where there is none of them.
 */
const withEnd = (checks: readonly BodyCheck[]): readonly BodyCheck[] =>
  checks.map((c) => (c.inSections ? c : { ...c, inSections: true, atEnd: true }));

const folderChecks = (m: Folder, sheet: Sheet, swing: Swing): readonly BodyCheck[] => {
  const checks = checksInRow(m, sheet, swing);
  const mayHang = m.clamp.kind === 'fingers' || m.clamp.endOverhang.value;
  return swing.help === 'off the end' && mayHang ? withEnd(checks) : checks;
};

/** What either side may run into, in the order in which it is reported. */
const checksInRow = (
  m: Folder,
  sheet: Sheet,
  { swingDeg, startDeg, help }: Swing,
): readonly BodyCheck[] => {
  const { bed, leaf, clamp, beam } =
    help === 'on packers'
      ? onPackers(folderBodies(m, sheet), sheet.packerMm ?? PACKER_MM)
      : folderBodies(m, sheet);
  const gapMm = CONTACT_GAP_MM + (help === undefined ? 0 : SPRING_MM);
  const holding = [...clamp, ...beam];
  const clampPieces = bodiesOf(clamp, holding, gapMm);
  const beamPieces = bodiesOf(beam, holding, gapMm);
  const lift = (panel: string): string =>
    `${panel} lies in front of the bed edge and would be lifted by the leaf`;
  const inLeaf = (panel: string): string => `${panel} would lie inside the leaf or its stiffener`;
  const { nearerMm = 0 } = sheet;
  const nearer = nearerMm === 0 ? [] : leaf.map((piece) => moved(piece, [nearerMm, 0]));
  const tooDeep = (highMm: number): string => deeperThanFingers(m, sheet, highMm);
  const moreDeg = swingDeg - startDeg;
  const from = (deg: number): number => deg + startDeg;
  const check = (
    side: Side,
    bodies: BodyCheck['bodies'],
    turnDeg: number,
    say: BodyCheck['say'],
  ): BodyCheck => ({ side, bodies, turnDeg, inSections: false, say });
  return [
    check(STILL, bodiesOf(bed), 0, (p) => `${p} would lie inside the bed`),
    check(
      STILL,
      beamPieces,
      0,
      (p, _, high) => `${p} (clamped side) lies inside the upper beam${tooDeep(high)}`,
    ),
    check(STILL, bodiesOf(leaf), -swingDeg, (p, deg) =>
      deg <= LIFTED_AT_ONCE_DEG ? lift(p) : `the leaf swings into ${p} at about ${deg} deg`,
    ),
    check(MOVING, bodiesOf(leaf), -startDeg, inLeaf),
    check(MOVING, bodiesOf(nearer), -startDeg, inLeaf),
    check(
      MOVING,
      bodiesOf(bed),
      moreDeg,
      (p, deg) => `${p} swings into the bed at about ${from(deg)} deg`,
    ),
    check(
      MOVING,
      beamPieces,
      moreDeg,
      (p, deg, high) =>
        `${p} (leaf side) swings into the upper beam at about ${from(deg)} deg${tooDeep(high)}`,
    ),
    { side: STILL, bodies: clampPieces, turnDeg: 0, inSections: true, say: () => '' },
    { side: MOVING, bodies: clampPieces, turnDeg: moreDeg, inSections: true, say: () => '' },
  ];
};

/**
 * Bed and leaf where the sheet lies on packers: both lower by the packers' height, with a packer
 * along the front of the bed.
 */
const onPackers = (section: FolderSection, highMm: number): FolderSection => {
  const { bed, leaf } = lowered(section, highMm);
  return { ...section, bed: [...bed, packer(highMm)], leaf };
};

/** Bed and leaf lower by the height of what the sheet lies on. */
export const lowered = (
  { bed, leaf }: FolderSection,
  highMm: number,
): Pick<FolderSection, 'bed' | 'leaf'> => {
  const lower = (piece: Section): Section => moved(piece, [0, -highMm]);
  return { bed: bed.map(lower), leaf: leaf.map(lower) };
};

/** A packer along the front of the bed. */
export const packer = (highMm: number): Section => box(-PACKER_DEPTH_MM, -highMm, 0, 0);

/**
 * Says that a side stands higher than the fingers are deep, which is what a person asks first about
 * a box. The worked cases on the middle plane have words of their own.
 */
const deeperThanFingers = ({ clamp }: Folder, { thicknessMm }: Sheet, highMm: number): string => {
  if (clamp.kind !== 'fingers' || thicknessMm === 0) return '';
  const roomMm = clamp.boxDepthMm.value + thicknessMm;
  return highMm <= roomMm
    ? ''
    : `: its depth of ${Math.round(highMm)} mm is more than the ${Math.round(clamp.boxDepthMm.value)} mm of the fingers`;
};

/**
 * Flat sheet in front of the bed edge is lifted within the first degree; anything that is met later
 * stands up.
 */
const LIFTED_AT_ONCE_DEG = 1;
