import {
  assemble,
  diameterWish,
  edge,
  figure,
  note,
  orInstead,
  orLess,
  orMore,
  orTry,
  polygon,
  rectangle,
  refuse,
  wish,
  EXACT_MM,
} from '../../src/template.ts';
import type { Finding, Panel, Part } from '../../src/template.ts';
import { type WallLip, wallEnd } from './ends.ts';
import { acrossOf } from './limits.ts';
import { reachAt, type Shell, wallAt } from './shell.ts';
import type { DuctBox } from './inputs.ts';

/** Centre of the stub from the axis of the aperture: to the right and up. */
const middleOf = (v: DuctBox): readonly [number, number] => [
  v.offsetRight + v.stubRight,
  v.offsetUp + v.stubUp,
];

const holeMm = (v: DuctBox): number => v.stub + v.stubFit;

/** Distance from the outside of wall `i` to the centre of the stub, along the plate. */
const awayFrom = (v: DuctBox, shell: Shell, i: number): number => {
  const [x, y] = middleOf(v);
  return reachAt(wallAt(shell, i), shell.depthMm) - ([-y, x, y, -x][i] ?? 0);
};

const stubHole = (v: DuctBox, centre: readonly [number, number]) =>
  ({ kind: 'round', from: 'stub', centre, diameterMm: holeMm(v) }) as const;

/**
 * Findings on a stub whose hole lies too near to the welds round the plate, or to where its bend
 * begins.
 */
export const impossibleStub = (v: DuctBox, shell: Shell): Finding[] => {
  if (v.end !== 'stub') return [];
  if (2 * v.stubWall >= v.stub) {
    return [
      refuse(
        'stub-without-bore',
        ['stubWall', 'stub'],
        `stubWall ${figure(v.stubWall)} leaves no bore in a tube of stub ${figure(v.stub)}`,
        [
          orLess('stubWall', v.stub / 2 - LEAST_BORE_MM / 2),
          orMore('stub', 2 * v.stubWall + LEAST_BORE_MM),
        ],
      ),
    ];
  }
  const nearest = nearestSide(v, shell);
  const left = nearest.away - holeMm(v) / 2;
  if (left >= v.stubMargin - EXACT_MM) return [];
  const most = 2 * (nearest.away - v.stubMargin) - v.stubFit;
  const end = acrossOf(nearest.i + 1)[1];
  const place = nearest.i % 2 === 0 ? 'stubUp' : 'stubRight';
  const comes =
    left < 0
      ? `runs ${figure(-left)} mm over the ${nearest.name}`
      : `comes within ${figure(left)} mm of the ${nearest.name}`;
  const what = `stub ${figure(v.stub)} with ${place} ${figure(v[place])} ${comes}, and stubMargin asks for ${figure(v.stubMargin)}`;
  const found = refuse(
    'stub-too-near-edge',
    ['stub', place, 'stubMargin'],
    what,
    most >= 1 ? [orLess('stub', most)] : [],
  );
  return [
    orTry(
      orInstead(
        found,
        `give a smaller stub, or ${end} ${figure(Math.ceil((v.stubMargin - left) * 200) / 100)} mm more`,
      ),
      place,
      end,
      'stubMargin',
    ),
  ];
};

/** The weld or the bend round the plate that the stub stands nearest to. */
const nearestSide = (v: DuctBox, shell: Shell) => {
  const sides = shell.walls.map((wall, i) => {
    const { lip } = wallEnd(v, shell, wall, 'end');
    const bend = lip === undefined ? 0 : lip.bend.setbackMm + lip.bend.shortMm;
    return {
      i,
      isWeld: lip === undefined,
      name: lip === undefined ? `weld at the ${wall.name}` : `bend at the ${wall.name}`,
      away: awayFrom(v, shell, i) - bend,
    };
  });
  return sides.reduce((a, b) => (b.away < a.away ? b : a));
};

/** A weld nearer to a hole than so many thicknesses pulls its edge out of round (common practice). */
const NEAR_WELD = 15;

/** What goes first where the hole of a stub stands close to a weld, and the flat that is kept. */
export const stubNotes = (v: DuctBox, shell: Shell): Finding[] => {
  if (v.end !== 'stub') return [];
  const { name, away, isWeld } = nearestSide(v, shell);
  const left = away - holeMm(v) / 2;
  if (!isWeld || left >= NEAR_WELD * v.thicknessMm) return [];
  return [
    note(
      'stub-near-weld',
      `The edge of the stub's hole keeps ${figure(left)} mm of flat beside the ${name}, less than ${NEAR_WELD} thicknesses: close the gap there and weld it first, let it cool, and cut the hole then, or true it, before the stub goes in; a seam that is welded beside an open hole pulls its edge out of round (common practice).`,
    ),
  ];
};

/** Least bore of a tube, mm; with less it is a bar. */
const LEAST_BORE_MM = 1;

/**
 * The plate that closes the end, as seen looking into the aperture. It lies on the ends of the
 * walls, flush with them.
 */
export const stubPlate = (v: DuctBox, shell: Shell): Part => {
  const [bottom = 0, right = 0, top = 0, left = 0] = shell.walls.map((wall) =>
    reachAt(wall, shell.depthMm),
  );
  const panel = {
    id: 'end plate',
    outline: rectangle(-left, -bottom, left + right, bottom + top),
    cutouts: [stubHole(v, middleOf(v))],
  };
  const wishes = [
    diameterWish('stub + stubFit', holeMm(v), 'end plate', 'stub'),
    ...(v.measure === 'outside'
      ? [
          wish('endWidth', v.endWidth, edge('end plate', 'left'), edge('end plate', 'right')),
          wish('endHeight', v.endHeight, edge('end plate', 'down'), edge('end plate', 'up')),
        ]
      : []),
  ];
  return assemble(v, { root: 'end plate', panels: [panel], folds: [], wishes });
};

/**
 * The plate folded on to wall `i` at its `bottom`, between two places across it where its corners
 * are snipped. Beyond its bend it is as wide as the distance between the walls beside it, which end
 * under it.
 */
export const foldedPlate = (
  v: DuctBox,
  shell: Shell,
  i: number,
  { bend, depthMm }: WallLip,
  [from, to]: readonly [number, number],
): Panel => {
  const [right, left] = [i + 1, i + 3].map((k) => reachAt(wallAt(shell, k), shell.depthMm)) as [
    number,
    number,
  ];
  // Seen from inside the edge of the end runs to the left: the plate's own right is the wall's
  // right.
  const at = (across: number, out: number): [number, number] => [across - from, out];
  const outline = polygon(
    [...at(from, 0), 'bottom'],
    at(to, 0),
    at(right, right - to),
    at(right, depthMm),
    at(-left, depthMm),
    at(-left, from + left),
  );
  const across = right - awayFrom(v, shell, (i + 1) % 4);
  return {
    id: 'end plate',
    outline,
    cutouts: [stubHole(v, at(across, awayFrom(v, shell, i) - bend.shortMm))],
  };
};
