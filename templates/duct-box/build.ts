import { assemble, hasStop, placeHoles, reroot } from '../../src/template.ts';
import type {
  Built,
  Cutout,
  Finding,
  GivenFold,
  HoleSpec,
  Panel,
  Part,
  Piece,
} from '../../src/template.ts';
import { blankId, type Blanks, chooseBlanks } from './blanks.ts';
import { cornerBend, type End, lipKind, wallEnd } from './ends.ts';
import { impossibleLips, impossibleShell, impossibleWalls } from './limits.ts';
import { lipPanel } from './lip.ts';
import { rootOf } from './net.ts';
import { ductNotes, ductReport } from './report.ts';
import { hasRing, lipRing } from './ring.ts';
import { apertureReaches, type Shell, shellOf, wallAt, type WallName } from './shell.ts';
import type { DuctBox } from './inputs.ts';
import { plateStanding, ringStanding, wallsStanding } from './standing.ts';
import { foldedPlate, impossibleStub, stubNotes, stubPlate } from './stub.ts';
import { wallShape, type WallShape } from './wall.ts';
import { ductWishes } from './wishes.ts';

/**
 * Four tapered walls from a rectangular aperture with lips to a smaller rectangle, or to a plate
 * with a round stub.
 */
export function ductBox(v: DuctBox): Built {
  const shell = shellOf(v);
  const steep = impossibleShell(v, shell);
  if (steep.length > 0) return { findings: steep };
  const blanks = chooseBlanks(v, shell);
  const walls = impossibleWalls(v, shell, blanks.seams);
  const impossible =
    walls.length > 0 ? walls : [...impossibleLips(v, shell), ...impossibleStub(v, shell)];
  if (impossible.length > 0) return { findings: impossible };
  const made = blanks.chains.map((chain) => ({
    id: blankId(chain),
    standing: wallsStanding(shell, chain[rootOf(chain)] as number),
    ...wallsPart(v, shell, blanks, chain),
  }));
  const findings = [
    ...made.flatMap((m) => m.findings),
    ...blanks.findings,
    ...ductNotes(v, shell),
    ...stubNotes(v, shell),
  ];
  if (hasStop(findings)) return { findings };
  const pieces: Piece[] = made.map(({ id, part, standing }) => ({ id, part, standing }));
  if (v.end === 'stub' && v.plateOn === 'none')
    pieces.push({
      id: 'end-plate',
      part: stubPlate(v, shell),
      standing: plateStanding(shell, v.thicknessMm),
    });
  if (hasRing(v))
    pieces.push({ id: 'lip-ring', part: lipRing(v, shell), standing: ringStanding(v.thicknessMm) });
  const report = ductReport(v, shell);
  const [only, ...more] = pieces;
  return only !== undefined && more.length === 0
    ? { part: only.part, findings, report }
    : { pieces, findings, report };
}

/** One blank: its walls folded along the slanted corners, each with its lips. */
const wallsPart = (
  v: DuctBox,
  shell: Shell,
  { seams }: Blanks,
  chain: readonly number[],
): { readonly part: Part; readonly findings: readonly Finding[] } => {
  const walls = chain.map((i) => wallWithLips(v, shell, seams, i));
  const corners = chain.slice(1).map((i, k): GivenFold => {
    const before = walls[k] as WallPieces;
    const own = walls[k + 1] as WallPieces;
    return {
      id: 'ABCD'.charAt((i + 3) % 4),
      parent: { panel: before.name, edge: 'right' },
      child: { panel: own.name, edge: 'left' },
      angleDeg: cornerBend(v, shell, i + 3).angleDeg,
      direction: 'up',
      insideRadiusMm: v.insideRadiusMm,
    };
  });
  const [panels, folds] = [
    walls.flatMap((w) => w.panels),
    [...corners, ...walls.flatMap((w) => w.folds)],
  ];
  const part = assemble(
    // The outlines are worked out on the outside faces, whichever faces were measured.
    { ...v, measure: 'outside' },
    { root: walls[0]?.name ?? '', panels, folds, wishes: ductWishes(v, { panels, folds }) },
  );
  return {
    part: reroot(part, walls[rootOf(chain)]?.name ?? ''),
    findings: walls.flatMap((w) => w.findings),
  };
};

interface WallPieces {
  readonly name: WallName;
  readonly panels: readonly Panel[];
  readonly folds: readonly GivenFold[];
  readonly findings: readonly Finding[];
}

const wallWithLips = (
  v: DuctBox,
  shell: Shell,
  seams: readonly boolean[],
  i: number,
): WallPieces => {
  const { name } = wallAt(shell, i);
  const shape = wallShape(v, shell, seams, i);
  const lips = (['aperture', 'end'] as const).map((end) => lipOn(v, shell, seams, i, end, shape));
  return {
    name,
    panels: [
      { id: name, outline: shape.outline, cutouts: wallHoles(v, shell, i) },
      ...lips.flatMap((l) => l.panels),
    ],
    folds: lips.flatMap((l) => l.folds),
    findings: lips.flatMap((l) => l.findings),
  };
};

const lipOn = (
  v: DuctBox,
  shell: Shell,
  seams: readonly boolean[],
  i: number,
  end: End,
  shape: WallShape,
): Omit<WallPieces, 'name'> => {
  const { lip } = wallEnd(v, shell, wallAt(shell, i), end);
  if (lip === undefined) return { panels: [], folds: [], findings: [] };
  const { apertureLeft, apertureRight, endLeft, endRight } = shape.corners;
  const [from, to] = end === 'aperture' ? [apertureLeft, apertureRight] : [endLeft, endRight];
  const width = [from.onEnd[0], to.onEnd[0]] as const;
  const isPlate = lipKind(v, end, wallAt(shell, i)) === 'plate';
  const made = isPlate
    ? foldedPlate(v, shell, i, lip, width)
    : lipPanel(v, shell, seams, i, end, width);
  if (!('id' in made)) return { panels: [], folds: [], findings: made };
  const fold: GivenFold = {
    id: (end === 'aperture' ? 'EFGH' : 'JKLM').charAt(i),
    parent: { panel: wallAt(shell, i).name, edge: end },
    child: { panel: made.id, edge: 'bottom' },
    angleDeg: lip.bend.angleDeg,
    direction: lip.direction,
    insideRadiusMm: v.insideRadiusMm,
  };
  return { panels: [made], folds: [fold], findings: [] };
};

/**
 * Holes of a wall, measured from the left end of the aperture's edge, seen from outside, and down
 * the wall, on the faces that are measured.
 */
const wallHoles = (v: DuctBox, shell: Shell, i: number): Cutout[] => {
  const wall = wallAt(shell, i);
  const inputs: readonly (readonly [string, readonly HoleSpec[]])[] = [
    ['holesBottom', v.holesBottom],
    ['holesRight', v.holesRight],
    ['holesTop', v.holesTop],
    ['holesLeft', v.holesLeft],
  ];
  const [input, specs] = inputs[i] as (typeof inputs)[number];
  const reaches = apertureReaches(v);
  const [leftEnd, rightEnd] = [reaches[(i + 1) % 4] ?? 0, reaches[(i + 3) % 4] ?? 0];
  const edge = v.measure === 'inside' ? v.thicknessMm * wall.slope : 0;
  return placeHoles(input, specs, {
    thicknessMm: v.thicknessMm,
    origin: [leftEnd, edge],
    across: [0, 1],
    along: [-1, 0],
    spanMm: [NaN, leftEnd + rightEnd],
  });
};
