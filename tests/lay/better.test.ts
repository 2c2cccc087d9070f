import { expect, test } from 'vitest';
import { isBetter } from '../../src/lay/sheets/better.ts';
import type { Aim } from '../../src/lay/sheets/request.ts';

const AIM: Aim = {
  firstLeft: 1,
  left: 2,
  cost: 3,
  bought: 1,
  onWholeMm2: 5000,
  cleanMm2: 800_000,
  travelMm: 900,
};

/** What counts before what, and how each figure is bettered, as the README has it. */
const ORDER: readonly (readonly [keyof Aim, number])[] = [
  ['firstLeft', 0],
  ['left', 1],
  ['cost', 2.5],
  ['bought', 0],
  ['onWholeMm2', 4000],
  ['cleanMm2', 900_000],
  ['travelMm', 700],
];

test.each(ORDER)('%s counts before all that comes after it', (figure, better) => {
  const at = ORDER.findIndex(([name]) => name === figure);
  const worse = Object.fromEntries(
    ORDER.slice(at + 1).map(([name, good]) => [name, AIM[name] - 3 * (good - AIM[name])]),
  );
  const one: Aim = { ...AIM, ...worse, [figure]: better };
  expect([isBetter(one, AIM), isBetter(AIM, one)]).toEqual([true, false]);
  expect(isBetter(AIM, AIM)).toBe(false);
});

test('what nobody could measure is no difference', () => {
  expect(isBetter({ ...AIM, cleanMm2: AIM.cleanMm2 + 0.5, travelMm: 899.5 }, AIM)).toBe(false);
  expect(isBetter({ ...AIM, cleanMm2: AIM.cleanMm2 - 0.5, travelMm: 700 }, AIM)).toBe(true);
});
