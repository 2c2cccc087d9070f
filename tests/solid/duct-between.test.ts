import { describe, expect, it } from 'vitest';
import { foldUp } from '../../src/fold/fold-up.ts';
import { foldedSizeMm } from '../../src/fold/size.ts';
import type { Pose } from '../../src/geometry/pose.ts';
import type { Vec3 } from '../../src/geometry/vec3.ts';
import type { WholePart } from '../../src/use/made-part.ts';
import { loadFamily, make } from '../helpers/check-template.ts';
import { examplesIn } from '../helpers/extent.ts';
import { blankSolid, seatOnLargest } from '../helpers/folded-solid.ts';
import { setsFrom } from '../helpers/made-sets.ts';
import { loadSolids, type Solid, type Solids } from '../helpers/solid.ts';

const examples = examplesIn(await loadFamily('duct-between'));

const walled = async (inputs: Readonly<Record<string, unknown>>): Promise<WholePart[]> =>
  (await make('duct-between', { ...inputs })).flatMap((made) =>
    made.stopped || made.part.rolled !== undefined ? [] : [made],
  );

/** Every panel of a blank, with square edges, where it comes to lie. */
const panelsOf = (solids: Solids, { part, flat }: Pick<WholePart, 'part' | 'flat'>): Solid[] => {
  const { poses } = foldUp(part, flat);
  return flat.panels.map((p) =>
    solids.move(solids.prism(p.region, part.thicknessMm), poses.get(p.id) as Pose),
  );
};

describe.each([...examples])('$title', async ({ inputs }) => {
  const withSolids = await loadSolids();
  const blanks = await walled(inputs);

  it('has the metal of its blanks and the size it is said to have', () => {
    expect(blanks.length).toBeGreaterThan(0);
    for (const blank of blanks)
      withSolids((solids) => {
        const { part, flat, result } = blank;
        const panels = panelsOf(solids, blank);
        const volume = flat.areaMm2 * part.thicknessMm;
        expect(solids.volume(blankSolid(solids, flat)) / volume).toBeCloseTo(1, 9);
        if (part.folds.length > 0)
          expect(panels.reduce((sum, p) => sum + solids.volume(p), 0) / volume).toBeCloseTo(1, 9);
        const seat = seatOnLargest(part, flat);
        const boxes = panels.map((panel) => solids.box(solids.move(panel, seat)));
        const size = [0, 1, 2].map(
          (axis) =>
            Math.max(...boxes.map((b) => b.high[axis] as number)) -
            Math.min(...boxes.map((b) => b.low[axis] as number)),
        );
        expect(foldedSizeMm(part, flat)).toEqual(size.map((v) => expect.closeTo(v, 6)));
        expect(result.folded?.sizeMm).toEqual(size.map((v) => expect.closeTo(v, 6)));
      });
  });
});

/** On the middle of 1 mm sheet: rounds of 160 and 80, 140 apart, as far aside as it says. */
const CONE = { near: 'round 161', far: 'round 81', length: 140, roundEdge: 'chords' } as const;
const [WIDE, NARROW, HIGH] = [80, 40, 140];

describe.each([
  [0, 0],
  [70, -30],
] as const)('a cone that is %d and %d aside, beside the cone of the kernel', async (x, y) => {
  const withSolids = await loadSolids();
  const coneArea = (solids: Solids, radius: number, high: number): number => {
    // Both rounds shrink towards one apex: at twice the length, for one is half of the other.
    const share = 1 - high / (2 * HIGH);
    const middle: Vec3 = [(1 - share) * 2 * x, (1 - share) * 2 * y, high];
    const at = (deg: number): Vec3 => [
      middle[0] + radius * Math.cos((deg * Math.PI) / 180),
      middle[1] + radius * Math.sin((deg * Math.PI) / 180),
      high,
    ];
    const apex: Vec3 = [2 * x, 2 * y, 2 * HIGH];
    return [0, 120, 240].reduce(
      (sum, from) =>
        sum + solids.area(solids.cone(apex, [at(from), at(from + 60), at(from + 120)])),
      0,
    );
  };

  it('the facets fall short of it by little, and the less the finer', async () => {
    const areaOf = async (divisions: number): Promise<number> => {
      const blanks = await walled({
        ...CONE,
        offsetRight: x,
        offsetUp: y,
        divisions,
        blanks: 'two',
        cornerGap: 0,
        thickness: 1,
        material: 'dc01',
      });
      return blanks.reduce((sum, { flat }) => sum + flat.areaMm2, 0);
    };
    const [coarse, fine] = [await areaOf(24), await areaOf(96)];
    withSolids((solids) => {
      const whole = coneArea(solids, WIDE, 0) - coneArea(solids, NARROW, HIGH);
      const short = (area: number): number => 1 - area / whole;
      expect(short(fine)).toBeGreaterThan(0);
      expect(short(fine)).toBeLessThan(1e-3);
      // What chords lose goes with the square of their length.
      expect(short(coarse) / short(fine)).toBeCloseTo(16, 0);
    });
  });
});

describe.each([
  ['outside', 'left', { near: '200 x 150', far: '200 x 120', offsetUp: 37, faceUp: 23 }],
  ['inside', 'right', { near: 'round 300', far: 'round 260', offsetRight: 31, lap: 8 }],
] as const)('walls lapped %s, %s hand', async (lapSide, hand, inputs) => {
  const withSolids = await loadSolids();
  const family = await loadFamily('duct-between');

  it('lie as far apart as the gap, on each other and nowhere nearer', () => {
    const [set] = setsFrom(family, {
      ...inputs,
      length: 180,
      seam: 'lapped',
      lapSide,
      blanks: 'two',
      cornerGap: 0.2,
      thickness: 1,
      material: 'dc01',
      hand,
    });
    if (set === undefined) throw new Error('no set');
    withSolids((solids) => {
      const [one, other] = set.assembly.pieces.map((piece) =>
        panelsOf(solids, piece).map((solid) => solids.move(solid, piece.pose)),
      );
      const apart = (one ?? []).flatMap((a) => (other ?? []).map((b) => solids.distance(a, b)));
      expect(Math.min(...apart)).toBeCloseTo(0.2, 6);
    });
  });
});
