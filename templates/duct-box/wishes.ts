import {
  angleWish,
  cross3,
  diameterWish,
  edge,
  length3,
  scale3,
  sub3,
  unit3,
  wish,
} from '../../src/template.ts';
import type { Feature, GivenFold, Panel, Vec3, Wish } from '../../src/template.ts';
import { WALLS, type WallName, wallDepthMm } from './shell.ts';
import type { DuctBox } from './inputs.ts';

/**
 * The four points of an opening seen looking into the aperture, x to the right, y up, z into the
 * duct: bottom left, bottom right, top right, top left.
 */
const opening = (
  width: number,
  height: number,
  [x, y]: readonly [number, number],
  z: number,
): readonly Vec3[] => [
  [x - width / 2, y - height / 2, z],
  [x + width / 2, y - height / 2, z],
  [x + width / 2, y + height / 2, z],
  [x - width / 2, y + height / 2, z],
];

/** Outward normals of the walls, through the corners of both openings. */
const normals = (v: DuctBox): ReadonlyMap<WallName, Vec3> => {
  const near = opening(v.width, v.height, [0, 0], 0);
  const far = opening(v.endWidth, v.endHeight, [v.offsetRight, v.offsetUp], wallDepthMm(v));
  const at = (points: readonly Vec3[], i: number): Vec3 => points[i % 4] as Vec3;
  return new Map(
    WALLS.map(
      (name, i) =>
        [
          name,
          scale3(
            unit3(cross3(sub3(at(near, i + 1), at(near, i)), sub3(at(far, i), at(near, i)))),
            -1,
          ),
        ] as const,
    ),
  );
};

/**
 * Angle by which one wall is turned against another, degrees. It stays accurate near 0 and near
 * 180, where a cosine does not.
 */
const turnedDeg = (a: Vec3, b: Vec3): number =>
  (2 * Math.atan2(length3(sub3(a, b)), length3(sub3(a, scale3(b, -1)))) * 180) / Math.PI;

/**
 * What the inputs mean on one blank of a duct, folded up: the angles between its walls, which are
 * all that its four sizes and its length tell about them; its lips, and the distance between their
 * planes.
 */
export const ductWishes = (
  v: DuctBox,
  { panels, folds }: { readonly panels: readonly Panel[]; readonly folds: readonly GivenFold[] },
): Wish[] => {
  const facing = normals(v);
  const walls = WALLS.filter((name) => panels.some((p) => p.id === name));
  const pairs = walls.flatMap((a, i) => walls.slice(i + 1).map((b) => [a, b] as const));
  return [
    ...pairs.map(([a, b]) =>
      angleWish(
        `sizes and length, ${a} against ${b}`,
        turnedDeg(facing.get(a) as Vec3, facing.get(b) as Vec3),
        a,
        b,
      ),
    ),
    ...lipWishes(v, panels, folds),
    ...panels.flatMap((p) =>
      p.cutouts
        .filter((c) => v.lipHole !== undefined && c.from.startsWith('lip'))
        .slice(0, 1)
        .map((c) => diameterWish('lipHole', v.lipHole ?? 0, p.id, c.from)),
    ),
    ...panels.flatMap((p) =>
      p.cutouts
        .filter((c) => c.from === 'stub')
        .map(() => diameterWish('stub + stubFit', v.stub + v.stubFit, p.id, 'stub')),
    ),
  ];
};

/** The face of a lip that lies in the plane of its end. */
const inPlane = (panel: string, fold: GivenFold | undefined): Feature => ({
  kind: 'face',
  panel,
  face: fold?.direction === 'up' ? 'lower' : 'upper',
});

const lipWishes = (v: DuctBox, panels: readonly Panel[], folds: readonly GivenFold[]): Wish[] => {
  const has = (id: string): boolean => panels.some((p) => p.id === id);
  const foldOf = (panel: string): GivenFold | undefined =>
    folds.find((f) => f.child.panel === panel);
  const near = WALLS.map((name) => `${name} lip`).filter(has);
  const far = [
    ...WALLS.map((name) => `${name} end lip`),
    ...(v.plateOn === 'none' ? [] : ['end plate']),
  ].filter(has);
  // A lip whose bend is over square is measured to where its faces cross, and no tangent lies
  // there.
  const depth = (input: string, mm: number, panel: string): Wish[] => {
    const fold = foldOf(panel);
    return fold === undefined || fold.angleDeg > 90
      ? []
      : [
          wish(input, mm, edge(panel, 'up'), {
            kind: 'fold',
            panel,
            fold: fold.id,
            measure: v.measure,
          }),
        ];
  };
  const [first] = near;
  return [
    ...near.flatMap((panel) => depth('lip', v.lip, panel)),
    ...far.flatMap((panel) => (panel === 'end plate' ? [] : depth('endLip', v.endLip, panel))),
    ...near
      .slice(1)
      .map((panel) => angleWish(`lips in one plane, ${first} and ${panel}`, 0, first ?? '', panel)),
    ...(first === undefined
      ? []
      : far.map((panel) =>
          wish(
            `length, ${first} to ${panel}`,
            v.length,
            inPlane(first, foldOf(first)),
            inPlane(panel, foldOf(panel)),
          ),
        )),
  ];
};
