import { angleWish, cross3, dot3, edge, sub3, unit3, wish } from '../../src/template.ts';
import type { Facing, Feature, Vec3, Wish } from '../../src/template.ts';
import { type Blanks, foldName } from './chains.ts';
import {
  type Chain,
  foldShiftMm,
  isBack,
  isFoldedIn,
  overlapMm,
  type PlacedPanel,
  seamShiftMm,
} from './panels.ts';
import { cornerTurnDeg, cornerWay, sideName } from './planes.ts';
import type { Plane } from './solid.ts';

/**
 * What the plan means on a blank of sides: the angles between them, and how long each is between
 * corners that run alongside, from a bend's inside or a weld's edge to the next.
 */
export const sideWishes = (all: Blanks, chain: Chain): Wish[] => [
  ...chain
    .slice(1)
    .map((corner, k) =>
      angleWish(
        `outline, corner ${corner + 1}`,
        Math.abs(cornerTurnDeg(all.shape.planes, corner)),
        sideName(chain[k] as number),
        sideName(corner),
      ),
    ),
  ...chain.flatMap((side) => lengthOfSide(all, chain, side)),
];

const lengthOfSide = ({ shape, sheet }: Blanks, chain: Chain, side: number): Wish[] => {
  const { planes, low } = shape;
  const next = (side + 1) % low.length;
  const [up, beside] = [cornerWay(planes, side), cornerWay(planes, next)];
  if (!isBack(up, [-beside[0], -beside[1], -beside[2]])) return [];
  const { normal } = planes.walls[side] as Plane;
  const across = cross3(normal, up);
  const apart = Math.abs(dot3(sub3(low[next] as Vec3, low[side] as Vec3), across));
  const end = (corner: number, facing: Facing): readonly [Feature, number] => {
    const turn = cornerTurnDeg(planes, corner);
    return isFoldedIn(chain, corner)
      ? [
          {
            kind: 'fold',
            panel: sideName(side),
            fold: foldName(chain, corner),
            measure: 'inside',
          },
          foldShiftMm(turn, sheet),
        ]
      : [edge(sideName(side), facing), seamShiftMm(turn, sheet)];
  };
  const [[from, first], [to, last]] = [end(side, 'right'), end(next, 'left')];
  // An edge faces right only where its corner stands square to the level.
  if (Math.abs(up[0] * normal[1] - up[1] * normal[0]) > SQUARE) return [];
  return [wish(`outline, ${sideName(side)} between its corners`, apart - first - last, from, to)];
};

/** Directions that differ by less than this, as a share of 1, are square to each other. */
const SQUARE = 1e-9;

/**
 * Depth of floor or top between two sides that run alongside: their distance as measured, less
 * clearance and sheet, and what the edges stand over. It lies as its frame was taken, along one.
 */
export const plateWishes = (
  { shape: { planes, low, high }, sheet }: Blanks,
  { pose }: PlacedPanel,
  which: 'floor' | 'top',
): Wish[] => {
  const plate = planes[which];
  // On its inside face, where sides and plate were measured against each other.
  const from = (which === 'floor' ? low : high)[0] as Vec3;
  const runs = planes.walls.map((wall) => ({ wall, run: unit3(cross3(wall.normal, pose.z)) }));
  // The edge that lies farthest out on either side, from the first corner.
  const reach = (sign: 1 | -1): number =>
    Math.max(
      ...runs
        .filter(({ run }) =>
          isBack(run, sign === 1 ? pose.x : [-pose.x[0], -pose.x[1], -pose.x[2]]),
        )
        .map(({ wall }) => outMm(plate, wall, from) + overlapMm(plate, wall, sheet)),
    );
  const [above, below] = [reach(1), reach(-1)];
  return Number.isFinite(above) && Number.isFinite(below)
    ? [
        wish(
          'outline less clearance and setback',
          above + below,
          edge(which, 'down'),
          edge(which, 'up'),
        ),
      ]
    : [];
};

/** How far a side's edge lies from a point of floor or top, in that plane and outwards. */
const outMm = (plate: Plane, { normal, atMm }: Plane, from: Vec3): number =>
  (dot3(normal, from) - atMm) / Math.hypot(...cross3(plate.normal, normal));
