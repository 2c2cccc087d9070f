import fc from 'fast-check';
import { polygon } from '../../src/geometry/loop.ts';
import type { Fold, Panel, Part, Relief } from '../../src/model/part.ts';
import { fold, panel, part } from './parts.ts';

/** Lengths to the hundredth: they make readable counterexamples, and are odd enough. */
const mm = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: Math.round(min * 100), max: Math.round(max * 100) }).map((n) => n / 100);

interface Flange {
  readonly has: boolean;
  /** Shares of the edge at which the stretch begins and ends. */
  readonly from: number;
  readonly to: number;
  readonly height: number;
  readonly leanLeft: number;
  readonly leanRight: number;
  readonly angleDeg: number;
  readonly direction: 'up' | 'down';
  readonly radius: number;
}

const flange = (angles: fc.Arbitrary<number>): fc.Arbitrary<Flange> =>
  fc.record({
    has: fc.boolean(),
    from: fc.constantFrom(0, 0, 0, 0.2, 0.35),
    to: fc.constantFrom(1, 1, 1, 0.8, 0.6),
    // The odd remainder keeps a panel from being exactly as wide as its two bends.
    height: mm(8, 50).map((h) => h + 0.0037),
    leanLeft: fc.constantFrom(0, 0, 4, -6),
    leanRight: fc.constantFrom(0, 0, 5, -3),
    angleDeg: angles,
    direction: fc.constantFrom('up' as const, 'up' as const, 'down' as const),
    radius: mm(0, 6),
  });

const relief: fc.Arbitrary<Relief> = fc.record({
  shape: fc.constantFrom('square' as const, 'round' as const, 'slit' as const),
  widthMm: mm(0.5, 4),
  leastSlotMm: mm(0.2, 2),
});

/** Corners of a convex polygon: points of an ellipse at uneven steps. */
const base = fc
  .record({
    n: fc.integer({ min: 3, max: 6 }),
    steps: fc.array(mm(0.6, 1.4), { minLength: 6, maxLength: 6 }),
    rx: mm(50, 120),
    ry: mm(50, 120),
  })
  .map(({ n, steps, rx, ry }) => {
    const used = steps.slice(0, n);
    const total = used.reduce((a, b) => a + b, 0);
    let at = 0;
    return used.map((s): [number, number] => {
      at += (2 * Math.PI * s) / total;
      return [rx * Math.cos(at), ry * Math.sin(at)];
    });
  });

/**
 * A convex plate of 3 to 6 edges with flanges on some, whole or in part, and lips on some of the
 * flanges.
 */
export const randomPart = (angles: fc.Arbitrary<number>): fc.Arbitrary<Part> =>
  fc
    .record({
      corners: base,
      thicknessMm: mm(0.5, 5),
      gap: mm(0, 2),
      relief,
      flanges: fc.array(flange(angles), { minLength: 6, maxLength: 6 }),
      lips: fc.array(flange(angles), { minLength: 6, maxLength: 6 }),
    })
    .map(({ corners, thicknessMm, gap, relief: cut, flanges, lips }) => {
      const panels: Panel[] = [panel('base', polygon(...corners))];
      const folds: Fold[] = [];
      corners.forEach((p, i) => {
        const f = flanges[i] as Flange;
        const q = corners[(i + 1) % corners.length] as [number, number];
        if (f.has)
          addFlange(
            panels,
            folds,
            `F${i}`,
            'base',
            i,
            Math.hypot(q[0] - p[0], q[1] - p[1]),
            f,
            lips[i] as Flange,
          );
      });
      return part(panels, folds, { thicknessMm, cornerGapMm: gap, relief: cut });
    });

const addFlange = (
  panels: Panel[],
  folds: Fold[],
  id: string,
  parent: string,
  edge: number,
  length: number,
  f: Flange,
  lip?: Flange,
): void => {
  const [from, to] = [length * f.from, length * f.to];
  const w = to - from;
  panels.push(
    panel(id, polygon([0, 0], [w, 0], [w + f.leanRight, f.height], [-f.leanLeft, f.height])),
  );
  folds.push(
    fold(
      id,
      { panel: parent, edge, from, to },
      { panel: id, edge: 0 },
      f.angleDeg,
      f.direction,
      f.radius,
    ),
  );
  if (lip?.has === true)
    addFlange(panels, folds, `${id} lip`, id, 2, w + f.leanLeft + f.leanRight, lip);
};
