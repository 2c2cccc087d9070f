import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { InputDescription } from '../../src/forms/read.ts';
import type { Template } from '../../src/forms/template.ts';
import { nearestMends, type Way } from '../../src/use/make/nearest-mends.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

const lengthNamed = (name: string, minimum = 1, maximum = 6000): InputDescription => ({
  name,
  flag: name,
  kind: 'length',
  about: name,
  allowed: 'a length',
  example: '10',
  required: true,
  common: false,
  minimum,
  maximum,
});

const bothWays = (input: InputDescription, now: number): Way[] => [
  { input, now, sign: 1 },
  { input, now, sign: -1 },
];

/** The inputs `a`, `b`, `c` and so on, each of which does where the list says so. */
const waysOf = (nows: readonly number[]): Way[] =>
  nows.flatMap((now, i) => bothWays(lengthNamed(String.fromCharCode(97 + i)), now));

describe('the nearest figures that do', () => {
  const given = fc.array(
    fc.record({
      now: fc.integer({ min: 10, max: 500 }),
      high: fc.integer({ min: 1, max: 900 }),
      low: fc.integer({ min: 1, max: 900 }),
    }),
    { minLength: 1, maxLength: 6 },
  );
  // One-sided limits are found by halving, and every one of them; of all the nearest are told.
  test('are those of a search in every way, nearest first', () => {
    fc.assert(
      fc.property(given, (list) => {
        const at = list.map(({ now, high, low }) => ({ now, least: now + high, most: now - low }));
        const does = (input: string, value: number): boolean => {
          const one = at[input.charCodeAt(0) - 97];
          return one !== undefined && (value >= one.least || value <= one.most);
        };
        const ways = waysOf(at.map(({ now }) => now));
        const each = ways.flatMap((way) =>
          nearestMends([way], 1, does).map((mend) => ({ way, mend })),
        );
        const share = ({ way, mend }: (typeof each)[number]): number =>
          Math.abs((mend.atLeast ?? mend.atMost ?? Number(mend.value)) - way.now) / way.now;
        const nearest = each.toSorted((a, b) => share(a) - share(b)).slice(0, 3);
        const told = nearestMends(ways, 3, does);
        const shareOf = (mend: (typeof told)[number]): number =>
          Math.min(
            ...each
              .filter(
                (one) =>
                  one.mend.input === mend.input &&
                  JSON.stringify(one.mend) === JSON.stringify(mend),
              )
              .map(share),
          );
        expect(told).toHaveLength(nearest.length);
        // What is told is rounded: two that are as near may change places.
        for (const [i, mend] of told.entries())
          expect(shareOf(mend)).toBeCloseTo(share(nearest[i] as (typeof each)[number]), 2);
      }),
    );
  });

  test('are looked for no farther than needed', () => {
    let trials = 0;
    const mends = nearestMends(waysOf(Array.from({ length: 20 }, () => 100)), 3, (input, value) => {
      trials += 1;
      return value <= 98 && 'abc'.includes(input);
    });
    expect(mends.map(({ input, atMost }) => [input, atMost])).toEqual([
      ['a', 98],
      ['b', 98],
      ['c', 98],
    ]);
    expect(trials).toBeLessThan(100);
  });

  test('are given up after as many trials whatever the number of inputs, and what is near is found', () => {
    for (const count of [20, 26]) {
      let trials = 0;
      nearestMends(waysOf(Array.from({ length: count }, () => 100)), 3, () => {
        trials += 1;
        return false;
      });
      expect(trials).toBe(200);
    }
    const late = nearestMends(
      waysOf(Array.from({ length: 26 }, () => 100)),
      3,
      (input, value) => input === 'z' && value >= 120,
    );
    expect(late).toEqual([{ input: 'z', atLeast: 120 }]);
  });
});

/** A template that counts how often it builds. */
const counted = (template: Template): { template: Template; builds: () => number } => {
  let builds = 0;
  return {
    template: {
      ...template,
      build: (values) => {
        builds += 1;
        return template.build(values);
      },
    },
    builds: () => builds,
  };
};

describe('a part that is stopped', () => {
  test.each([
    // All that does, and what does nothing, is tried.
    [
      'bracket-channel',
      {
        web: 80,
        flangeA: 80,
        flangeB: 80,
        width: 60,
        bendAngle: 135,
        thickness: 3,
        material: 's235',
      },
      3,
    ],
    [
      'bracket-hat',
      {
        crown: 40,
        height: 120,
        footA: 30,
        footB: 30,
        width: 60,
        bendAngle: 130,
        thickness: 3,
        material: '1.4301',
        radius: 3,
      },
      1,
    ],
  ])('is made again a limited number of times: %s', async (family, inputs, least) => {
    const { template, builds } = counted(await loadFamily(family));
    const made = makeParts(template, { ...inputs, hand: 'both' }, UNPLANNED);
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    const mends = made.parts.flatMap(({ result }) => result.findings.flatMap((f) => f.mends ?? []));
    expect(mends.length).toBeGreaterThanOrEqual(least);
    expect(builds()).toBeLessThan(130);
  });
});
