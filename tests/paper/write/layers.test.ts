import { expect, test } from 'vitest';
import { isCut, LAYERS } from '../../../src/dxf/write/layers.ts';
import { published } from '../../helpers/published.ts';

/** The strict release 12 form of a name, by the published rule that check d11 works out. */
const strictName = (name: string): string =>
  name
    .toUpperCase()
    .replace(/[^A-Z0-9$_-]/g, '_')
    .slice(0, 31);

test('every layer name already has the strict form of release 12 (published, d11), and none comes twice', () => {
  const { given, expect: wanted } = published('exchange', 'd11');
  expect(strictName(given['name'] as string)).toBe(wanted['name']);
  for (const { name } of LAYERS) expect(name).toBe(strictName(name));
  expect(new Set(LAYERS.map(({ name }) => name)).size).toBe(LAYERS.length);
});

test('no mark, fold or note shares its look with a cut', () => {
  const cuts = LAYERS.filter(({ role }) => isCut(role));
  for (const other of LAYERS.filter((layer) => !cuts.includes(layer))) {
    for (const cut of cuts) {
      expect(other.dxfColour).not.toBe(cut.dxfColour);
      expect(other.svgColour).not.toBe(cut.svgColour);
    }
  }
});
