import { FOLDING, type FoldingCase } from './cases.ts';

/** A point of the machine's section, mm. */
export type Point = readonly [x: number, y: number];
export type Polygon = readonly Point[];

/**
 * The bodies of a machine while a stroke stands at some angle, out of the published profiles alone.
 */
export interface Scene {
  /** Over the whole length, by name. */
  readonly fixed: Readonly<Record<string, readonly Polygon[]>>;
  /** Fingers, a beam of one piece or the punch: only where nothing stands. */
  readonly tools: readonly Polygon[];
}

const turned = (polygon: Polygon, deg: number): Polygon => {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  return polygon.map(([x, y]): Point => [c * x - s * y, s * x + c * y]);
};
const shifted = (polygon: Polygon, dx: number, dy: number): Polygon =>
  polygon.map(([x, y]): Point => [x + dx, y + dy]);
const box = (l: number, b: number, r: number, t: number): Polygon => [
  [l, b],
  [r, b],
  [r, t],
  [l, t],
];

export const sceneOf = (given: FoldingCase, deg: number): Scene => {
  const { fixed, tools } = drawnScene(given, deg);
  return {
    fixed: Object.fromEntries(
      Object.entries(fixed).map(([name, bodies]) => [name, bodies.map(counterClockwise)]),
    ),
    tools: tools.map(counterClockwise),
  };
};

const drawnScene = ({ machine: { profile, settings } }: FoldingCase, deg: number): Scene => {
  const sections = FOLDING.machine_profiles[profile]?.section_polygons ?? {};
  if (profile === 'pressbrake-1250') return brakeScene(settings, sections, deg);
  const polygons = (name: string): readonly Polygon[] =>
    (sections[name] ?? []) as readonly Polygon[];
  const setback = Number(settings['nose_setback_mm']);
  const atNose = (name: string): Polygon[] => polygons(name).map((p) => shifted(p, -setback, 0));
  return {
    fixed: {
      bed: polygons('bed'),
      leaf: polygons(
        settings['leaf_bar_fitted'] === true
          ? 'leaf_at_rest_bar_fitted'
          : 'leaf_at_rest_bar_removed',
      ).map((p) => turned(p, deg)),
      beam: atNose('upper_beam_relative_to_nose_tip'),
    },
    tools: [...atNose('finger_relative_to_nose_tip'), ...atNose('clamp_beam_relative_to_nose_tip')],
  };
};

/** The profile gives the straight punch and the die in words, here written out. */
const brakeScene = (
  settings: Readonly<Record<string, unknown>>,
  sections: Readonly<Record<string, unknown>>,
  deg: number,
): Scene => {
  const height = Number(settings['punch_height_mm']);
  const half = Number(settings['V_mm']) / 2;
  const rise = half * Math.tan((deg * Math.PI) / 360);
  const gooseneck = (sections['gooseneck_8'] as (readonly (number | string)[])[][]).map((p) =>
    p.map(([x, y]): Point => [Number(x), y === 'punch_height' ? height : Number(y)]),
  );
  const straight: Polygon[] = [
    [
      [0, 0],
      [6, 22.4],
      [-6, 22.4],
    ],
    box(-6, 22.4, 6, height),
  ];
  return {
    fixed: {
      ram: [box(-30, height, 30, height + 300)],
      die: [
        box(half, -60, half + 2.5, 0),
        box(-half - 2.5, -60, -half, 0),
        box(-30, -300, 30, -60),
      ].map((p) => shifted(p, 0, rise)),
    },
    tools: settings['punch'] === 'straight' ? straight : gooseneck,
  };
};

/**
 * How deep a point lies inside a convex polygon that runs counter-clockwise, mm; negative outside.
 */
export const depthIn = (polygon: Polygon, x: number, y: number): number => {
  let depth = Infinity;
  for (let i = 0; i < polygon.length; i++) depth = Math.min(depth, depthOver(polygon, i, x, y));
  return depth;
};

/** How far a point lies on the inner side of one edge, mm. */
const depthOver = (polygon: Polygon, edge: number, x: number, y: number): number => {
  const [ax, ay] = polygon[edge] as Point;
  const [bx, by] = polygon[edge + 1] ?? (polygon[0] as Point);
  return ((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / Math.hypot(bx - ax, by - ay);
};

/**
 * Whether any point between some corners may lie deeper than that in a convex polygon. Over one
 * edge depths are linear, so that none does where all corners are shallower over any.
 */
export const mayBeIn = (
  polygon: Polygon,
  corners: readonly (readonly [x: number, y: number, z: number])[],
  deeperThan: number,
): boolean =>
  polygon.every((_, edge) => corners.some(([x, y]) => depthOver(polygon, edge, x, y) > deeperThan));

const counterClockwise = (polygon: Polygon): Polygon => {
  const twice = polygon.reduce((sum, [ax, ay], i) => {
    const [bx, by] = polygon[(i + 1) % polygon.length] as Point;
    return sum + ax * by - bx * ay;
  }, 0);
  return twice < 0 ? polygon.toReversed() : polygon;
};
