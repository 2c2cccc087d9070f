import {
  figure,
  isOver,
  just,
  orInstead,
  orLess,
  orMore,
  orTry,
  refuse,
  without,
} from '../../src/template.ts';
import type { Finding } from '../../src/template.ts';
import { lipKind, wallEnd } from './ends.ts';
import { hasRing, narrowRing, ringMm } from './ring.ts';
import { reachAt, type Shell, wallAt, wallDepthMm } from './shell.ts';
import type { DuctBox } from './inputs.ts';
import { edgeLengths, LEAST_EDGE_MM, wallShape } from './wall.ts';

/**
 * Greatest lean of a wall, degrees: a steeper one makes a lid of the duct, with bends too sharp for
 * any lip.
 */
const STEEPEST_DEG = 60;

/** Inputs that are lengths across the duct, or along it. */
type Size = 'width' | 'height' | 'endWidth' | 'endHeight' | 'length';

/**
 * The inputs that give the width of a wall at either end and the shift of its end: across for
 * bottom and top, upward for left and right.
 */
export const acrossOf = (i: number) =>
  i % 2 === 0
    ? (['width', 'endWidth', 'offsetRight'] as const)
    : (['height', 'endHeight', 'offsetUp'] as const);

/** Findings on walls that are impossible before anything is drawn. */
export const impossibleShell = (v: DuctBox, shell: Shell): Finding[] => {
  if (wallDepthMm(v) <= 0)
    return [
      refuse(
        'duct-too-short',
        ['length'],
        `length ${figure(v.length)} leaves no walls under the plate of the stub`,
        [orMore('length', v.thicknessMm + LEAST_EDGE_MM)],
      ),
    ];
  const steepest = shell.walls.reduce((a, b) =>
    Math.abs(b.taperDeg) > Math.abs(a.taperDeg) ? b : a,
  );
  if (!isOver(Math.abs(steepest.taperDeg), STEEPEST_DEG)) return [];
  const length =
    (Math.abs(steepest.slope) * shell.depthMm) / Math.tan((STEEPEST_DEG * Math.PI) / 180) +
    v.length -
    shell.depthMm;
  // The lean of a wall follows from the change of the duct square to it.
  const [at, end, offset] = acrossOf(shell.walls.indexOf(steepest) + 1);
  const what = `length ${figure(v.length)} makes the ${steepest.name} lean ${figure(Math.abs(steepest.taperDeg))} degrees from ${at} ${figure(v[at])} to ${end} ${figure(v[end])} with ${offset} ${figure(v[offset])}, more than ${STEEPEST_DEG}`;
  return [
    orTry(
      refuse('wall-too-steep', ['length', at, end, offset], what, [orMore('length', length)]),
      end,
      offset,
    ),
  ];
};

/**
 * Findings on walls that leave no room for bends, lips and snipped corners: every shortage is told
 * at once.
 */
export const impossibleWalls = (v: DuctBox, shell: Shell, seams: readonly boolean[]): Finding[] => {
  const least = new Map<Size, number>();
  const need = (input: Size, short: number): void => {
    if (isOver(short, 0)) least.set(input, Math.max(least.get(input) ?? 0, v[input] + short));
  };
  for (const i of shell.walls.keys()) {
    const lengths = edgeLengths(wallShape(v, shell, seams, i));
    const [at, end] = acrossOf(i);
    need(at, LEAST_EDGE_MM - lengths.aperture);
    need(end, LEAST_EDGE_MM - lengths.end);
    need('length', LEAST_EDGE_MM - Math.min(lengths.left, lengths.right));
  }
  const mends = [...least].map(([input, mm]) => orMore(input, mm));
  const [only, ...more] = mends;
  if (only === undefined) return [];
  const given = mends.map(({ input }) => `${input} ${figure(v[input as Size])}`).join(', ');
  const all = `give ${mends.map(({ input, atLeast }) => `${input} ${figure(atLeast ?? 0)}`).join(', ')} or more`;
  const found = refuse(
    'wall-too-small',
    [...mends.map(({ input }) => input), 'radius'],
    `${given} leave${more.length === 0 ? 's' : ''} a wall no room for its lips and bends of radius ${figure(v.insideRadiusMm)}`,
    more.length === 0 ? [only] : [],
  );
  return [orTry(orInstead(found, all), 'radius', 'lip', 'endLip', 'leastSlot')];
};

/**
 * Findings on lips that are all bend, meet each other or hold no hole, and on holes for lips that
 * are not there.
 */
export const impossibleLips = (v: DuctBox, shell: Shell): Finding[] => {
  const lips = [...shortLips(v, shell), ...narrowRing(v, shell), ...inwardLips(v, shell)];
  return lips.length > 0 ? lips : lipHoles(v, shell);
};

/**
 * Finding on short lips. A lip needs flat metal beyond its bend; the steeper its wall leans out,
 * the more the bend takes.
 */
const shortLips = (v: DuctBox, shell: Shell): Finding[] =>
  (['aperture', 'end'] as const).flatMap((end) => {
    const input = end === 'aperture' ? 'lip' : 'endLip';
    const short = shell.walls.flatMap((wall) => {
      const { lip } = wallEnd(v, shell, wall, end);
      return lip === undefined || lipKind(v, end, wall) === 'plate'
        ? []
        : [lip.bend.setbackMm + LEAST_EDGE_MM - lip.depthMm];
    });
    const most = Math.max(0, ...short);
    if (!isOver(most, 0)) return [];
    const none = end === 'aperture' ? just('lip', 0) : just('end', 'open');
    return [
      orTry(
        refuse('lip-too-short', [input], `${input} ${figure(v[input])} is all taken by its bend`, [
          orMore(input, v[input] + most),
          none,
        ]),
        'radius',
      ),
    ];
  });

const inwardLips = (v: DuctBox, shell: Shell): Finding[] => {
  if (v.end !== 'lip-in') return [];
  const [bottom, right, top, left] = shell.walls.map((wall) => {
    const lip = wallEnd(v, shell, wall, 'end').lip;
    return {
      reach: reachAt(wall, shell.depthMm),
      taken: (lip?.depthMm ?? 0) + (lip?.bend.shortMm ?? 0),
    };
  });
  const pairs = [
    [bottom, top, 'endHeight'],
    [left, right, 'endWidth'],
  ] as const;
  return pairs.flatMap(([a, b, input]) => {
    if (a === undefined || b === undefined) return [];
    const over = a.taken + b.taken + v.cornerGapMm - a.reach - b.reach;
    if (!isOver(over, 0)) return [];
    const most = v.endLip - over / 2;
    return [
      orTry(
        refuse(
          'end-lips-meet',
          ['endLip', input],
          `Two lips of endLip ${figure(v.endLip)} meet within ${input} ${figure(v[input])}`,
          [...(most > 0 ? [orLess('endLip', most)] : []), just('end', 'lip-out')],
        ),
        input,
      ),
    ];
  });
};

const lipHoles = (v: DuctBox, shell: Shell): Finding[] => {
  const hole = v.lipHole;
  if (hole === undefined || v.lip === 0) return [];
  const flat = hasRing(v)
    ? ringMm(v, shell)
    : Math.min(
        ...shell.walls.map((_, i) => {
          const lip = wallEnd(v, shell, wallAt(shell, i), 'aperture').lip;
          return (lip?.depthMm ?? 0) - (lip?.bend.setbackMm ?? 0);
        }),
      );
  // A thickness of metal is left beside a hole (common practice for the least of it).
  const most = flat - 2 * v.thicknessMm;
  if (!isOver(hole, most)) return [];
  const what = `lipHole ${figure(hole)} does not fit the flat of lip ${figure(v.lip)}, which is ${figure(flat)} mm`;
  return [
    refuse('lip-hole-too-big', ['lipHole', 'lip'], what, [
      orMore('lip', v.lip + hole - most),
      ...(most > 0.5 ? [orLess('lipHole', most)] : []),
      without('lipHole'),
    ]),
  ];
};
