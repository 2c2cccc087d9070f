import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { make } from '../helpers/check-template.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import { loadSolids, type Solid, type Solids } from '../helpers/solid.ts';
import { type AskedTank, standingPiece } from '../helpers/tank.ts';

type Standing = ReadonlyMap<string, ReadonlyMap<string, Solid>>;

const standUp = (solids: Solids, parts: readonly MadePart[], asked: AskedTank): Standing =>
  new Map(parts.map((p) => [p.result.piece ?? '', standingPiece(solids, p, asked)]));

const apart = (
  solids: Solids,
  one: readonly Solid[],
  other: ReadonlyMap<string, Solid> | undefined,
): number =>
  Math.min(...one.flatMap((a) => [...(other?.values() ?? [])].map((b) => solids.distance(a, b))));

const SEAMS = [
  ['wrap', 'end-left'],
  ['wrap', 'end-right'],
  ['wrap', 'top'],
  ['end-left', 'top'],
  ['end-right', 'top'],
] as const;

/** Every piece its gap from the next, and every flange of the sides by itself. */
const expectSeams = (solids: Solids, standing: Standing, gap: number, what: string): void => {
  for (const [one, other] of SEAMS)
    expect(
      apart(solids, [...(standing.get(one)?.values() ?? [])], standing.get(other)),
      `${one} to ${other} of ${what}`,
    ).toBeCloseTo(gap, 6);
  for (const side of ['end-left', 'end-right']) {
    for (const [id, solid] of standing.get(side) ?? []) {
      if (id.endsWith('flange'))
        expect(
          apart(solids, [solid], standing.get(id === 'roof flange' ? 'top' : 'wrap')),
          `${id} of ${what}`,
        ).toBeCloseTo(gap, 6);
    }
  }
};

describe('tanks by outside dimensions', async () => {
  const withSolids = await loadSolids();

  it.each(['flush', 'flanged'])(
    'a box with %s sides measures over all what was asked',
    async (ends) => {
      const parts = await make('tank', {
        length: 404,
        width: 224,
        height: 204,
        ends,
        endFlange: 15,
        material: 's235',
        thickness: 2,
        radius: 3,
        longestBay: 4000,
      });
      const beyond = ends === 'flush' ? 2 : 15;
      const asked: AskedTank = {
        length: 400,
        width: 224 - 2 * beyond,
        deep: 200,
        shallow: 200,
        radius: 3,
        thickness: 2,
        gap: 0.5,
        beyond,
        topSetback: 1,
        baffles: [],
      };
      withSolids((solids) => {
        const standing = standUp(solids, parts, asked);
        expectSeams(solids, standing, 0.5, ends);
        const size = solids.size(
          solids.union([...standing.values()].flatMap((metal) => [...metal.values()])),
        );
        expect(size).toEqual([224, 404, 204].map((n) => expect.closeTo(n, 6)));
      });
    },
  );

  it('of any size close up with their gap', async () => {
    const mm = (min: number, max: number) => fc.integer({ min, max });
    const cases = fc.record({
      length: mm(150, 900),
      width: mm(110, 500),
      height: mm(160, 500),
      fall: mm(0, 110),
      ends: fc.constantFrom('flush', 'flanged'),
      endFlange: mm(16, 30),
      thickness: fc.constantFrom(1, 1.5, 2, 3),
      radius: fc.constantFrom(0.5, 2, 4),
      cornerGap: fc.constantFrom(0.1, 0.3, 1, 2),
    });
    for (const { fall, ...given } of fc.sample(cases, { numRuns: fuzzRuns(15), seed: 7 })) {
      const { length, width, height, thickness: t, radius, cornerGap: gap, ends } = given;
      const parts = await make('tank', {
        ...given,
        heightShallow: height - fall,
        material: 's235',
        longestBay: 4000,
      });
      const slope = Math.atan(fall / length);
      const beyond = ends === 'flush' ? t : given.endFlange;
      // Inside faces lie a thickness in, square to the floor; their corner is (1 +- sin) / cos of
      // that up the end.
      const inside = (depth: number, sign: number): number =>
        depth - t - (t * (1 + sign * Math.sin(slope))) / Math.cos(slope);
      const asked: AskedTank = {
        length: length - 2 * t,
        width: width - 2 * beyond,
        deep: inside(height, 1),
        shallow: inside(height - fall, -1),
        radius,
        thickness: t,
        gap,
        beyond,
        topSetback: t / 2,
        baffles: [],
      };
      withSolids((solids) =>
        expectSeams(solids, standUp(solids, parts, asked), gap, JSON.stringify(given)),
      );
    }
  });
});
