import { describe, expect, it } from 'vitest';
import { inputsJsonSchema, readInputs } from '../../src/forms/read.ts';
import { loadFamily, make, rulesOf } from '../helpers/check-template.ts';
import { madeOnce } from '../helpers/made-once.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

/** Whatever is wrong with pieces, fits and tabs is told under its path, with what would do. */

const box = {
  name: 'box',
  base: '120 x 80',
  flanges: ['front on bottom 40 90 up', 'rear on top 40 90 up'],
};

const toldOf = async (inputs: Record<string, unknown>): Promise<string[]> => {
  const made = madeOnce(
    await loadFamily('panels'),
    { thickness: 2, radius: 2, ...inputs },
    UNPLANNED,
  );
  if (made.ok) throw new Error('nothing is wrong with it');
  return made.problems.map(({ input, given, allowed, mend }) =>
    [input, given, allowed, mend ?? ''].join(' | '),
  );
};

const pieces = (...list: unknown[]): Record<string, unknown> => ({ pieces: list });

describe('inputs of pieces', () => {
  it.each<[string, Record<string, unknown>, RegExp]>([
    ['neither base nor pieces', {}, /^base \| nothing \|.*give it, or pieces/],
    [
      'base beside pieces',
      { base: '10 x 10', ...pieces(box) },
      /^base \|.*nothing beside pieces.*leave out base/,
    ],
    [
      'flanges beside pieces',
      { flanges: 'a on top 10', ...pieces(box) },
      /^flanges \|.*nothing beside pieces/,
    ],
    ['a name in capitals', pieces({ ...box, name: 'Box' }), /^pieces\[0\]\.name \| 'Box'/],
    ['a name twice', pieces(box, box), /^pieces\[1\]\.name \|.*call it box-2/],
    [
      'a piece without a base',
      pieces({ name: 'a' }),
      /^pieces\[0\]\.base \| nothing.*give it, or fits/,
    ],
    ['a quantity that is none', pieces({ ...box, quantity: 0.5 }), /^pieces\[0\]\.quantity/],
    [
      'a key that is none',
      pieces({ ...box, flange: 'x' }),
      /'flange' in piece 1.*did you mean flanges\?/,
    ],
    ['no list', { pieces: 5 }, /^pieces \| 5 /],
    ['a text that is no list', { pieces: 'box' }, /^pieces \| 'box'/],
    [
      'a flange that is no line',
      pieces({ ...box, flanges: 'up 20' }),
      /^pieces.*'up 20' as flanges 1 of piece 1/,
    ],
    [
      'a size beside fits',
      pieces(box, { name: 'lid', base: '10 x 10', fits: 'over box' }),
      /^pieces\[1\]\.base\.size \|.*leave out size or fits/,
    ],
    [
      'a relation that is none',
      pieces(box, { name: 'lid', fits: 'under box' }),
      /^pieces.*as fits 1 of piece 2.*write over, into, closes or covers/,
    ],
    [
      'two relations',
      pieces(box, { name: 'lid', fits: { over: 'box', into: 'box' } }),
      /^pieces.*as fits 1 of piece 2.*give one of over/,
    ],
    [
      'a piece that is not there',
      pieces(box, { name: 'lid', fits: 'over bok' }),
      /^pieces\[1\]\.fits\.over \| 'bok' \|.*did you mean box\?/,
    ],
    [
      'a gap below 0',
      pieces(box, { name: 'lid', fits: 'over box gap -1' }),
      /^pieces\[1\]\.fits\.gap \|/,
    ],
    [
      'more gap than room',
      pieces(box, { name: 'plug', fits: 'into box gap 60' }),
      /^pieces\[1\]\.fits\.gap \|.*at most 37\.99 mm/,
    ],
    [
      'more gap than room between walls',
      pieces(box, { name: 'plug', fits: 'closes box left gap 60' }),
      /^pieces\[1\]\.fits\.gap \|.*at most (?:3\d|18)\S* mm/,
    ],
    [
      'an edge with a wall on it',
      pieces(box, { name: 'cheek', fits: 'closes box top' }),
      /^pieces\[1\]\.fits\.closes \|.*base right, base left|base left, base right/,
    ],
    [
      'a panel that is not there',
      pieces(box, { name: 'cheek', fits: 'closes box fron left' }),
      /^pieces\[1\]\.fits\.closes \|.*did you mean box front left\?/,
    ],
    [
      'a flat piece with nothing to close',
      pieces({ name: 'flat', base: '50 x 50' }, { name: 'cheek', fits: 'closes flat left' }),
      /it has none/,
    ],
    [
      'an inset of what covers',
      pieces(box, { name: 'cheek', fits: 'covers box left inset 3' }),
      /^pieces\[1\]\.fits\.inset \|.*write closes/,
    ],
    [
      'skirts that lean in',
      pieces(box, { name: 'lid', fits: 'over box', flanges: 'a on left 20 100 up' }),
      /^pieces\[1\]\.flanges\[0\]\.angle \|.*at most 90/,
    ],
    [
      'two that fit each other',
      pieces({ name: 'a', fits: 'over b' }, { name: 'b', fits: 'over a' }),
      /circle: .*a\.base.*b/,
    ],
    [
      'a figure that goes round through another piece',
      pieces(
        { ...box, flanges: [{ name: 'w', on: 'left', height: 'lid.base.width/2' }] },
        { name: 'lid', fits: 'over box', flanges: 'a on left 20 90 up' },
      ),
      /circle: .*lid\.base/,
    ],
    [
      'a figure of a piece that is not there',
      pieces({ ...box, base: { width: 'bax.base.width', depth: 20 } }),
      /^pieces\[0\]\.base\.width \|.*there is no bax\.base\.width/,
    ],
    [
      'tabs between pieces that stand nowhere to each other',
      pieces(box, { name: 'rib', base: '40 x 40', tabs: 'bottom into box base' }),
      /^pieces\[1\]\.tabs\[0\]\.into \|.*give one of them fits/,
    ],
    [
      'tabs on an edge that is not there',
      pieces(box, { name: 'rib', fits: 'closes box left inset 9', tabs: 'botom into box base' }),
      /^pieces\[1\]\.tabs\[0\]\.on \|.*did you mean base bottom\?/,
    ],
    [
      'tabs into a panel that is not there',
      pieces(box, { name: 'rib', fits: 'closes box left inset 9', tabs: 'bottom into box bass' }),
      /^pieces\[1\]\.tabs\[0\]\.into \|.*did you mean box base\?/,
    ],
    [
      'tabs into the panel that lies alongside',
      { base: '80 x 60', flanges: 'a on left 20 90 up', tabs: 'top into base' },
      /^tabs\[0\]\.into \|.*another panel/,
    ],
    [
      'a count of tabs that is none',
      { base: '80 x 60', flanges: 'a on left 20 90 up', tabs: 'a end into base count 1.5' },
      /^tabs\[0\]\.count \|/,
    ],
    ['a tab that is no line', { base: '80 x 60', tabs: 'base' }, /^tabs \|.*write the edge/],
  ])('%s', async (_, inputs, expected) => {
    expect((await toldOf(inputs)).join('\n')).toMatch(new RegExp(expected.source, 'm'));
  });

  it('are told once each', async () => {
    const told = await toldOf(
      pieces(box, { name: 'lid', fits: 'over box', flanges: 'a on left 20 bad up' }),
    );
    expect(told).toHaveLength(1);
  });

  it('tell of a piece that is fitted to one that cannot be made', async () => {
    const parts = await make('panels', {
      thickness: 2,
      radius: 2,
      ...pieces(
        { ...box, flanges: ['low on bottom 2 90 up'] },
        { name: 'lid', fits: 'over box gap 1' },
      ),
    });
    const rules = parts.flatMap((part) => rulesOf(part, 'stop'));
    expect(rules).toContain('fit-to-nothing');
    expect(rules.some((rule) => rule !== 'fit-to-nothing')).toBe(true);
  });

  it('are a list in a file and the same in brackets as a flag, and stand in the schema', async () => {
    const template = await loadFamily('panels');
    const list = [
      { name: 'box', base: '60 x 40', flanges: ['w on left 20 90 up'] },
      { name: 'lid', quantity: 2, fits: { over: 'box', gap: 1 } },
    ];
    const written =
      '[{ name: box, base: 60 x 40, flanges: [w on left 20 90 up] }, { name: lid, quantity: 2, fits: { over: box, gap: 1 } }]';
    const read = (given: unknown): unknown => {
      const found = readInputs(template, { thickness: 2, pieces: given });
      return found.ok ? found.values['pieces' as keyof typeof found.values] : found.problems;
    };
    expect(read(written)).toEqual(read(list));
    const schema = JSON.stringify(inputsJsonSchema(template));
    for (const key of ['fits', 'closes', 'quantity', 'clearance', 'pitch', 'inset'])
      expect(schema).toContain(`"${key}"`);
  });

  it('give as many of a piece as they say', async () => {
    const parts = await make('panels', {
      thickness: 2,
      radius: 2,
      ...pieces(box, { name: 'cheek', quantity: 2, fits: 'closes box left gap 0.5' }),
    });
    expect(parts.map(({ result }) => [result.piece, result.quantity])).toEqual([
      ['box', 1],
      ['cheek', 2],
    ]);
  });
});
