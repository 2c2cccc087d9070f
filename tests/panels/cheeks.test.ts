import { describe, expect, it } from 'vitest';
import { loopExtents } from '../../src/geometry/extents.ts';
import type { Pose } from '../../src/geometry/pose.ts';
import { makeWhole, type Whole } from '../helpers/whole-parts.ts';
import { foldBlank } from '../helpers/folded-solid.ts';
import { loadSolids, type Solid, type Solids } from '../helpers/solid.ts';

/**
 * Cheeks put into the pieces that they close, by a pose worked out by hand, and the distance to
 * every panel and bend measured by the solid kernel.
 */

const foldedUp = (solids: Solids, made: Whole): ReadonlyMap<string, Solid> => {
  const { panels, bends } = foldBlank(solids, made.part, made.flat);
  return new Map([...panels, ...bends]);
};

const plate = (solids: Solids, made: Whole, pose: Pose): Solid => {
  const [panel] = made.part.panels;
  return solids.move(solids.prism(panel?.outline ?? [], made.part.thicknessMm), pose);
};

const sizeOf = (made: Whole): { readonly wide: number; readonly high: number } => {
  const box = loopExtents(made.part.panels[0]?.outline ?? []);
  return { wide: (box?.maxX ?? 0) - (box?.minX ?? 0), high: (box?.maxY ?? 0) - (box?.minY ?? 0) };
};

/**
 * In the coordinates of a base of that depth, folded up: seen from beyond its left end the cheek
 * runs from the top of the drawing of the base to the bottom. Symmetric pieces alone, so that its
 * middle stands over the middle of the base.
 */
const atLeft = (made: Whole, depth: number, floor: number, inset: number): Pose => ({
  x: [0, -1, 0],
  y: [0, 0, 1],
  z: [-1, 0, 0],
  o: [inset + made.part.thicknessMm, depth / 2 + sizeOf(made).wide / 2, floor],
});

const t = 2;
const radius = 3;

describe('cheeks', async () => {
  const withSolids = await loadSolids();

  const channel = (angle: number, measure: string, cheek: string, more: string[] = []) =>
    makeWhole({
      thickness: t,
      radius,
      measure,
      pieces: [
        {
          name: 'box',
          base: '120 x 80',
          flanges: [`front on bottom 40 ${angle} up`, `rear on top 40 ${angle} up`, ...more],
        },
        { name: 'cheek', fits: cheek },
      ],
    }) as Promise<readonly [Whole, Whole]>;

  const gaps = (solids: Solids, box: Whole, cheek: Solid): Map<string, number> =>
    new Map(
      [...foldedUp(solids, box)].map(([id, solid]) => [id, solids.distance(solid, cheek)] as const),
    );

  it.each([
    [90, 'outside', 0.5],
    [90, 'inside', 0.5],
    [90, 'outside', 5],
    [70, 'outside', 1],
    [60, 'inside', 0.3],
    [110, 'outside', 0.8],
  ])(
    'stands between walls of %s degrees, measured on the %s, %s mm off',
    async (angle, measure, gap) => {
      const [box, cheek] = await channel(angle, measure, `closes box left gap ${gap}`);
      withSolids((solids) => {
        const found = gaps(solids, box, plate(solids, cheek, atLeft(cheek, 80, t + gap, 0)));
        expect(found.size).toBe(5);
        for (const [id, mm] of found)
          // A corner that is cut square inside a bend stands farther off than asked.
          if (gap > radius && /^[AB]$/.test(id)) expect(mm).toBeGreaterThan(gap - 1e-6);
          else expect(mm, id).toBeCloseTo(gap, 5);
      });
      // Its top is level with the ends of the inside faces: of a wall that leans in, the lower corner.
      const ends = withSolids((solids) => solids.box(foldedUp(solids, box).get('front') as Solid));
      const lower = angle > 90 ? t * Math.sin(((angle - 90) * Math.PI) / 180) : 0;
      expect(sizeOf(cheek).high).toBeCloseTo(ends.high[2] - lower - t - gap, 5);
    },
  );

  it('stands as far in as inset says, and fits there too', async () => {
    const [box, cheek] = await channel(90, 'outside', 'closes box left gap 0.5 inset 20');
    withSolids((solids) => {
      const found = gaps(solids, box, plate(solids, cheek, atLeft(cheek, 80, t + 0.5, 20)));
      for (const mm of found.values()) expect(mm).toBeCloseTo(0.5, 5);
    });
  });

  it('goes below lips that are turned in, and along them', async () => {
    const lips = ['lip front on front end 15 90 up', 'lip rear on rear end 15 90 up'];
    const [box, cheek] = await channel(90, 'outside', 'closes box left gap 1', lips);
    withSolids((solids) => {
      const found = gaps(solids, box, plate(solids, cheek, atLeft(cheek, 80, t + 1, 0)));
      expect(found.size).toBe(9);
      for (const [id, mm] of found) expect(mm, id).toBeCloseTo(1, 5);
    });
  });

  it('closes a channel with brims up to their faces', async () => {
    const brims = ['brim front on front end 15 90 down', 'brim rear on rear end 15 90 down'];
    const [, cheek] = await channel(90, 'outside', 'closes box left gap 1', brims);
    // Walls are 40 high over all, and the faces of the brims are their tops.
    expect(sizeOf(cheek).high).toBeCloseTo(40 - t - 1, 6);
  });

  it('covers the edges flush with the outsides, round the bends', async () => {
    const [box, cheek] = await channel(90, 'outside', 'covers box left');
    const { wide, high } = sizeOf(cheek);
    expect([wide, high]).toEqual([expect.closeTo(80, 6), expect.closeTo(40, 6)]);
    const corner = cheek.part.panels[0]?.outline.filter(({ bulge }) => bulge !== 0);
    expect(corner).toHaveLength(2);
    withSolids((solids) => {
      const against: Pose = { ...atLeft(cheek, 80, 0, 0), o: [0, 80, 0] };
      const solid = plate(solids, cheek, against);
      for (const [id, other] of foldedUp(solids, box)) {
        expect(solids.distance(solid, other), id).toBeCloseTo(0, 6);
        expect(solids.commonVolume(solid, other), id).toBeCloseTo(0, 6);
      }
    });
  });

  it.each(['in', 'out'])('closes a chute of three panels that narrows, at its %s', async (end) => {
    const [chute, cheek] = (await makeWhole({
      thickness: t,
      radius,
      pieces: [
        {
          name: 'chute',
          base: {
            outline: '0,0 edge front; 150,15 edge out; 150,65 edge rear; 0,80 edge in',
          },
          flanges: ['near on front 40 90 up', 'far on rear 40 90 up'],
        },
        { name: 'cheek', fits: `closes chute ${end} gap 0.6` },
      ],
    })) as [Whole, Whole];
    const atIn = atLeft(cheek, 80, t + 0.6, 0);
    const { wide } = sizeOf(cheek);
    const pose: Pose =
      end === 'in'
        ? atIn
        : { x: [0, 1, 0], y: [0, 0, 1], z: [1, 0, 0], o: [150 - t, 40 - wide / 2, t + 0.6] };
    withSolids((solids) => {
      const solid = plate(solids, cheek, pose);
      for (const [id, other] of foldedUp(solids, chute))
        if (id === 'base' || (end === 'in' && (id === 'near' || id === 'far')))
          expect(solids.distance(solid, other), id).toBeCloseTo(0.6, 4);
        else expect(solids.distance(solid, other), id).toBeGreaterThan(0.6 - 1e-4);
      // At the wide side of a wedge a wall that is cut square ends t sin(a) before the plane, where
      // its face would be nearest: there it is t sin(a) tan(a) farther off.
      const lean = Math.atan(15 / 150);
      const most = 0.6 + t * Math.sin(lean) * Math.tan(lean);
      for (const id of ['near', 'far'])
        expect(solids.distance(solid, foldedUp(solids, chute).get(id) as Solid)).toBeLessThan(
          most * Math.cos(lean) + t * Math.sin(lean) * Math.sin(lean),
        );
    });
  });

  it('closes an angle with a triangle', async () => {
    const [, cheek] = (await makeWhole({
      thickness: t,
      radius,
      pieces: [
        { name: 'angle', base: '100 x 50', flanges: 'leg on bottom 60 90 up' },
        { name: 'rib', fits: 'closes angle left' },
      ],
    })) as [Whole, Whole];
    expect(sizeOf(cheek)).toEqual({ wide: expect.closeTo(48, 6), high: expect.closeTo(58, 6) });
  });

  it('lies in the mouth of a box between all four walls', async () => {
    const [, sheet] = (await makeWhole({
      thickness: t,
      radius,
      pieces: [
        {
          name: 'box',
          base: '120 x 80',
          flanges: ['left', 'right', 'top', 'bottom'].map((on) => `wall ${on} on ${on} 40 90 up`),
        },
        { name: 'cover', fits: 'closes box wall bottom end gap 0.5' },
      ],
    })) as [Whole, Whole];
    const { wide, high } = sizeOf(sheet);
    expect([wide, high].toSorted((a, b) => a - b)).toEqual([
      expect.closeTo(80 - 2 * t - 1, 6),
      expect.closeTo(120 - 2 * t - 1, 6),
    ]);
  });

  it('has flanges that lie beside the walls with the gap', async () => {
    for (const measure of ['outside', 'inside']) {
      const [box, cheek] = (await makeWhole({
        thickness: t,
        radius,
        measure,
        pieces: [
          {
            name: 'box',
            base: '120 x 80',
            flanges: ['front on bottom 40 90 up', 'rear on top 40 90 up'],
          },
          {
            name: 'cheek',
            fits: 'closes box left gap 0.5',
            flanges: ['a on front 12 90 down from 15 to 30', 'b on rear 12 90 down from 5 to 20'],
          },
        ],
      })) as [Whole, Whole];
      withSolids((solids) => {
        const parts = [...foldedUp(solids, cheek)].flatMap(([id, s]) =>
          id === 'a' || id === 'b' ? [solids.box(s)] : [],
        );
        const low = Math.min(...parts.map((b) => b.low[0]));
        const high = Math.max(...parts.map((b) => b.high[0]));
        const room = foldedUp(solids, box);
        const [front, rear] = ['front', 'rear'].map((id) => solids.box(room.get(id) as Solid));
        expect(high - low).toBeCloseTo((rear?.low[1] ?? 0) - (front?.high[1] ?? 0) - 1, 5);
      });
    }
  });
});
