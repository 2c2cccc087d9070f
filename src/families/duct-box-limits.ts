import { atLeast, atMost, figure } from '../figures.ts';
import { type Finding, stop } from '../model/finding.ts';
import { lipKind, wallEnd } from './duct-box-ends.ts';
import { type DuctBox, reachAt, type Shell, wallAt, wallDepthMm } from './duct-box-shell.ts';
import { edgeLengths, LEAST_EDGE_MM, wallShape } from './duct-box-wall.ts';

/** A wall that leans more makes a lid of the duct, and bends too sharp for any lip, degrees. */
const STEEPEST_DEG = 60;

/** What the walls cannot be before anything is drawn. */
export const impossibleShell = (v: DuctBox, shell: Shell): Finding[] => {
  if (wallDepthMm(v) <= 0) return [stop('duct-too-short', `length ${figure(v.length)} leaves no walls under the plate of the stub: give more than ${figure(v.thicknessMm)}.`)];
  const steepest = shell.walls.reduce((a, b) => (Math.abs(b.taperDeg) > Math.abs(a.taperDeg) ? b : a));
  if (Math.abs(steepest.taperDeg) <= STEEPEST_DEG) return [];
  const length = (Math.abs(steepest.slope) * shell.depthMm) / Math.tan((STEEPEST_DEG * Math.PI) / 180) + v.length - shell.depthMm;
  return [stop('wall-too-steep', `The ${steepest.name} leans ${figure(Math.abs(steepest.taperDeg))} deg: make length at least ${atLeast(length)}, or the step of that side smaller, for no more than ${STEEPEST_DEG}.`)];
};

/** What the bends, lips and snipped corners leave no room for. */
export const impossibleWalls = (v: DuctBox, shell: Shell, seams: readonly boolean[]): Finding[] =>
  shell.walls.flatMap(({ name }, i) => {
    const lengths = edgeLengths(wallShape(v, shell, seams, i));
    const across = i % 2 === 0 ? (['width', 'endWidth'] as const) : (['height', 'endHeight'] as const);
    const more = (input: 'width' | 'height' | 'endWidth' | 'endHeight' | 'length', short: number): Finding[] =>
      short <= 0 ? [] : [stop('wall-too-small', `The ${name} has no room for its bends and lips: give ${input} ${atLeast(v[input] + short)} or more.`)];
    return [
      ...more(across[0], LEAST_EDGE_MM - lengths.aperture),
      ...more(across[1], LEAST_EDGE_MM - lengths.end),
      ...more('length', LEAST_EDGE_MM - Math.min(lengths.left, lengths.right)),
    ];
  });

/** Lips that meet each other or hold no hole. */
export const impossibleLips = (v: DuctBox, shell: Shell): Finding[] => [...shortLips(v, shell), ...inwardLips(v, shell), ...lipHoles(v, shell)];

/** A lip needs flat metal beyond its bend; the steeper its wall leans out, the more the bend takes. */
const shortLips = (v: DuctBox, shell: Shell): Finding[] =>
  (['aperture', 'end'] as const).flatMap((end) => {
    const input = end === 'aperture' ? 'lip' : 'endLip';
    const short = shell.walls.flatMap((wall) => {
      const { lip } = wallEnd(v, shell, wall, end);
      return lip === undefined || lipKind(v, end, wall) === 'plate' ? [] : [lip.bend.setbackMm + LEAST_EDGE_MM - lip.depthMm];
    });
    const most = Math.max(0, ...short);
    return most === 0 ? [] : [stop('lip-too-short', `${input} ${figure(v[input])} is all taken by its bend: give ${atLeast(v[input] + most)} or more${end === 'aperture' ? ', or 0 for none' : ''}.`)];
  });

const inwardLips = (v: DuctBox, shell: Shell): Finding[] => {
  if (v.end !== 'lip-in') return [];
  const [bottom, right, top, left] = shell.walls.map((wall) => {
    const lip = wallEnd(v, shell, wall, 'end').lip;
    return { reach: reachAt(wall, shell.depthMm), taken: (lip?.depthMm ?? 0) + (lip?.bend.shortMm ?? 0) };
  });
  const pairs = [[bottom, top, 'endHeight'], [left, right, 'endWidth']] as const;
  return pairs.flatMap(([a, b, input]) => {
    if (a === undefined || b === undefined) return [];
    const over = a.taken + b.taken + v.cornerGapMm - a.reach - b.reach;
    return over <= 0 ? [] : [stop('end-lips-meet', `Two end lips of ${figure(v.endLip)} meet within ${input} ${figure(v[input])}: give endLip ${atMost(v.endLip - over / 2)} or less.`)];
  });
};

const lipHoles = (v: DuctBox, shell: Shell): Finding[] => {
  const hole = v.lipHole;
  if (hole === undefined || v.lip === 0) return [];
  const flat = Math.min(...shell.walls.map((_, i) => {
    const lip = wallEnd(v, shell, wallAt(shell, i), 'aperture').lip;
    return (lip?.depthMm ?? 0) - (lip?.bend.setbackMm ?? 0);
  }));
  // Metal left beside a hole: the thickness (common practice for the least of it).
  const most = flat - 2 * v.thicknessMm;
  if (hole <= most) return [];
  return [stop('lip-hole-too-big', `lipHole ${figure(hole)} does not fit the flat of the lip, ${figure(flat)}: make lip at least ${atLeast(v.lip + hole - most)}${most > 0.5 ? `, or the hole ${atMost(most)} or less` : ''}.`)];
};
