import {
  clip,
  figure,
  lengthOfEdge,
  moveLoop,
  NOISE_MM,
  orInstead,
  orTry,
  polygon,
  rectangle,
  refuse,
  roundFreeCorners,
  shift,
  vertexAt,
  without,
  NO_FLAT_MM,
  SAME_POINT_MM,
  wholeUp,
} from '../../src/template.ts';
import type { Cutout, Finding, Loop, Panel, PolygonPoint, Vec2 } from '../../src/template.ts';
import { type End, lipKind, outOf, wallEnd, type WallLip } from './ends.ts';
import { acrossOf } from './limits.ts';
import { reachAt, type Shell, wallAt } from './shell.ts';
import type { DuctBox } from './inputs.ts';
import { type Hand, sideAngleDeg, sideDepth, sidePoint, wallSide } from './side.ts';

/**
 * The half plane of a lip that is kept: `normal . p >= level`, measured from the middle of the
 * aperture across, and out from the mould line.
 */
interface Keep {
  readonly normal: Vec2;
  readonly level: number;
}

/**
 * A lip along a wall's end, between two places across it, folded at its `bottom`. Its ends are
 * square unless it would run into the lip beside it, in the flat or, if it is turned inwards, when
 * folded.
 */
export const lipPanel = (
  v: DuctBox,
  shell: Shell,
  seams: readonly boolean[],
  i: number,
  end: End,
  [from, to]: readonly [number, number],
): Panel | readonly Finding[] => {
  const wall = wallAt(shell, i);
  const { lip } = wallEnd(v, shell, wall, end);
  if (lip === undefined) throw new Error(`no lip at the ${end} of ${wall.name}`);
  const id = end === 'aperture' ? `${wall.name} lip` : `${wall.name} end lip`;
  const limits = (['right', 'left'] as const).flatMap((hand) =>
    limitsOf(v, shell, seams, i, hand, end, lip),
  );
  let shape: Loop = rectangle(from, 0, to - from, Math.max(lip.depthMm, NO_FLAT_MM));
  for (const { normal, level } of limits)
    shape = clip(shape, normal, level, ([x, y]) => ({ x, y, bulge: 0 }))[0] ?? [];
  // Seen from inside, the edge of the aperture runs to the right and that of the end to the left.
  const own =
    end === 'aperture'
      ? moveLoop({ c: 1, s: 0, x: to, y: 0 }, mirrored(shape))
      : moveLoop(shift(-from, 0), shape);
  if (Math.abs(lengthOfEdge(own, 'bottom') - (to - from)) > SAME_POINT_MM)
    return [lipTrimmedAway(v, i, end, id)];
  const free = own.some((p) => p.edge === 'top') ? ['top'] : [];
  const bend = lip.bend.setbackMm;
  const rounded = roundFreeCorners(
    id,
    own,
    free,
    v,
    own.map((p, k) => (p.y === 0 || own[(k + 1) % own.length]?.y === 0 ? bend : 0)),
  );
  if (rounded.findings.length > 0) return rounded.findings;
  const holes =
    end === 'aperture' ? fixingHoles(v, wall.name, own, lip) : { cutouts: [], apartMm: Infinity };
  if (holes.apartMm <= (v.lipHole ?? 0) + NOISE_MM)
    return [holesTooClose(v, wall.name, holes.apartMm)];
  return { id, outline: rounded.outline, cutouts: holes.cutouts };
};

const lipTrimmedAway = (v: DuctBox, i: number, end: End, id: string): Finding => {
  const [input, across] =
    end === 'aperture' ? (['lip', acrossOf(i)[0]] as const) : (['endLip', acrossOf(i)[1]] as const);
  const found = refuse(
    'lip-trimmed-away',
    [input, across],
    `${input} ${figure(v[input])} leaves the ${id} no metal between its neighbours at ${across} ${figure(v[across])}`,
    [],
  );
  return orTry(
    orInstead(found, `make ${input} smaller, or ${across} larger`),
    input,
    across,
    'cornerGap',
    'leastSlot',
    'radius',
  );
};

/** The loop mirrored in the line x = 0; its edges are straight. */
const mirrored = (loop: Loop): Loop =>
  polygon(
    ...loop
      .map(({ x, y }, k): PolygonPoint => {
        const { edge } = vertexAt(loop, k - 1);
        return edge === undefined ? [-x, y] : [-x, y, edge];
      })
      .toReversed(),
  );

const limitsOf = (
  v: DuctBox,
  shell: Shell,
  seams: readonly boolean[],
  i: number,
  hand: Hand,
  end: End,
  lip: WallLip,
): Keep[] => {
  const side = wallSide(v, shell, seams, i, hand);
  const limits = [
    ...(side.isFolded ? [apartInFlat(v, shell, seams, i, hand, end, lip)] : []),
    ...(lipKind(v, end, side.wall) === 'in' ? [mitre(v, shell, i, hand, lip)] : []),
  ];
  return limits.map(({ normal: [x, y], level }) => ({
    normal: [hand === 'right' ? x : -x, y],
    level,
  }));
};

/**
 * Keeps the two lips at a fold apart in the flat: each stays on its side of the line that halves
 * the angle left open beside them, far enough for the cutter to pass. The line starts on the middle
 * of the bend between the walls, which lies half its deduction inside the mould line of either.
 */
const apartInFlat = (
  v: DuctBox,
  shell: Shell,
  seams: readonly boolean[],
  i: number,
  hand: Hand,
  end: End,
  lip: WallLip,
): Keep => {
  const own = wallSide(v, shell, seams, i, hand);
  const other =
    hand === 'right'
      ? wallSide(v, shell, seams, i + 1, 'left')
      : wallSide(v, shell, seams, i + 3, 'right');
  const { alongMm } = wallEnd(v, shell, own.wall, end);
  const depth =
    (sideDepth(own, alongMm) + sideDepth(other, wallEnd(v, shell, other.wall, end).alongMm)) / 2;
  const start = sidePoint(own, depth, own.insetMm + own.bend.deductionMm / 2);
  const half = ((360 - sideAngleDeg(own, end) - sideAngleDeg(other, end)) / 2) * (Math.PI / 180);
  const [sin, cos] = [Math.sin(half), Math.cos(half)];
  // Distance out of the wall from the start of the line to the lip's own mould line in the flat.
  const out = outOf(end) * (alongMm - start[1]) - lip.bend.deductionMm;
  return {
    normal: [-sin, -cos],
    level: Math.max(v.cornerGapMm, v.leastSlotMm) / 2 - sin * start[0] + cos * out,
  };
};

/**
 * Inward lips are mitred at 45 degrees, each half the gap back. The snipped corners keep them off
 * the walls beside them.
 */
const mitre = (v: DuctBox, shell: Shell, i: number, hand: Hand, lip: WallLip): Keep => {
  const corner = reachAt(wallAt(shell, hand === 'right' ? i + 1 : i - 1), shell.depthMm);
  return {
    normal: [-Math.SQRT1_2, -Math.SQRT1_2],
    level: v.cornerGapMm / 2 - Math.SQRT1_2 * (corner - lip.bend.shortMm),
  };
};

/**
 * Holes along the middle of the lip's flat, spaced evenly; each end hole stands half the lip's flat
 * from its end.
 */
const fixingHoles = (
  v: DuctBox,
  wall: string,
  shape: Loop,
  lip: WallLip,
): { readonly cutouts: readonly Cutout[]; readonly apartMm: number } => {
  if (v.lipHole === undefined) return { cutouts: [], apartMm: Infinity };
  const diameterMm = v.lipHole;
  const y = (lip.bend.setbackMm + lip.depthMm) / 2;
  const inset = Math.max((lip.depthMm - lip.bend.setbackMm) / 2, diameterMm);
  const top = shape.filter((p) => p.y > lip.depthMm - SAME_POINT_MM).map((p) => p.x);
  const [low, high] = [Math.min(...top) + inset, Math.max(...top) - inset];
  const count = high <= low ? 1 : 1 + wholeUp((high - low) / v.lipPitch);
  const cutouts = Array.from({ length: count }, (_, k): Cutout => ({
    kind: 'round',
    from: `lipHole ${wall} ${k + 1}`,
    centre: [count === 1 ? (low + high) / 2 : low + ((high - low) * k) / (count - 1), y],
    diameterMm,
  }));
  return { cutouts, apartMm: count === 1 ? Infinity : (high - low) / (count - 1) };
};

const holesTooClose = (v: DuctBox, wall: string, apartMm: number): Finding => {
  const what = `lipPitch ${figure(v.lipPitch)} puts holes of lipHole ${figure(v.lipHole ?? 0)} into each other on the lip of the ${wall}, ${figure(apartMm)} mm apart`;
  return orTry(
    refuse('lip-holes-too-close', ['lipPitch', 'lipHole'], what, [without('lipHole')]),
    'lipPitch',
  );
};
