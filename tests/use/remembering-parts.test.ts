import { expect, test } from 'vitest';
import { rememberingParts } from '../../src/use/job/remembering-parts.ts';
import { type Made, makeParts } from '../../src/use/make/make-parts.ts';
import angle from '../../templates/bracket-angle/index.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

const INPUTS = { legA: 60, legB: 40, width: 80, thickness: 3, radius: 4 };

/** All that is told of parts, and all of their files. */
const told = (made: Made) =>
  made.ok ? made.parts.map((p) => ({ ...p, files: p.files() })) : made.problems;

test('a part that was made with how well it fits is the same as one made without', () => {
  const make = rememberingParts();
  const fitted = make(angle, INPUTS, { ...UNPLANNED, fit: {} });
  const plain = make(angle, INPUTS, UNPLANNED);
  expect(told(fitted)).toEqual(told(makeParts(angle, INPUTS, { ...UNPLANNED, fit: {} })));
  expect(told(plain)).toEqual(told(makeParts(angle, INPUTS, UNPLANNED)));
  // Not made anew: it is the very same part.
  expect(plain.ok && fitted.ok && plain.parts[0]?.part === fitted.parts[0]?.part).toBe(true);
});

test('what was made without says nothing of how well it fits, and is made anew', () => {
  const make = rememberingParts();
  make(angle, INPUTS, UNPLANNED);
  expect(told(make(angle, INPUTS, { ...UNPLANNED, fit: {} }))).toEqual(
    told(makeParts(angle, INPUTS, { ...UNPLANNED, fit: {} })),
  );
});

test('other inputs, and other ways to make it, give another part', () => {
  const make = rememberingParts();
  const first = make(angle, INPUTS, UNPLANNED);
  for (const [inputs, way] of [
    [{ ...INPUTS, legA: 61 }, UNPLANNED],
    [INPUTS, { ...UNPLANNED, cutOnly: true }],
    [INPUTS, { ...UNPLANNED, kerf: 1 }],
  ] as const) {
    const other = make(angle, inputs, way);
    expect(told(other)).toEqual(told(makeParts(angle, inputs, way)));
    expect(told(other)).not.toEqual(told(first));
  }
  expect(make(angle, INPUTS, UNPLANNED)).toBe(first);
});

test('what is wrong with inputs is told again', () => {
  const make = rememberingParts();
  const wrong = make(angle, { legA: 'x' }, { ...UNPLANNED, fit: {} });
  expect([wrong.ok, make(angle, { legA: 'x' }, UNPLANNED)]).toEqual([false, wrong]);
});
