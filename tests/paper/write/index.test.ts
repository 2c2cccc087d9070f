import { expect, test } from 'vitest';
import { WRITERS } from '../../../src/paper/write/index.ts';
import { CART_BRACKET } from '../../helpers/drawings.ts';

test('every writer has an id of its own and turns a drawing into another text', () => {
  const texts = WRITERS.map(({ write }) => write(CART_BRACKET, { cutOnly: false }));
  expect(new Set(WRITERS.map(({ id }) => id)).size).toBe(WRITERS.length);
  expect(new Set(texts).size).toBe(WRITERS.length);
  for (const { write } of WRITERS) {
    expect(write(CART_BRACKET, { cutOnly: true }).length).toBeLessThan(
      write(CART_BRACKET, { cutOnly: false }).length,
    );
  }
});
