import { expect, it } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import { polygon, rectangle } from '../../src/geometry/loop.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import type { Part } from '../../src/model/part.ts';
import { angle, box, fold, panel, part, prism } from '../helpers/parts.ts';

const K = { id: 'k', k: 0.5 } as const;

const web = (lengthMm: number): Part =>
  part(
    [
      panel('a', rectangle(0, 0, 50, 30)),
      panel('web', rectangle(0, 0, 50, lengthMm)),
      panel('b', rectangle(0, 0, 50, 30)),
    ],
    [
      fold('A', { panel: 'a', edge: 2 }, { panel: 'web', edge: 0 }),
      fold('B', { panel: 'web', edge: 2 }, { panel: 'b', edge: 0 }),
    ],
  );

const wallWithNarrowLip = (heightMm: number): Part =>
  part(
    [
      panel('base', rectangle(0, 0, 100, 60)),
      panel('wall', rectangle(0, 0, 100, heightMm)),
      panel('lip', rectangle(0, 0, 40, 20)),
    ],
    [
      fold('W', { panel: 'base', edge: 2 }, { panel: 'wall', edge: 0 }, 90, 'up', 2),
      fold(
        'L',
        { panel: 'wall', edge: 2, from: 30, to: 70 },
        { panel: 'lip', edge: 0 },
        90,
        'up',
        2,
      ),
    ],
    { thicknessMm: 2 },
  );

const touching = part(
  [
    panel('plate', rectangle(0, 0, 100, 60)),
    panel('left', rectangle(0, 0, 50, 20)),
    panel('right', rectangle(0, 0, 50, 20)),
  ],
  [
    fold('L', { panel: 'plate', edge: 2, from: 50, to: 100 }, { panel: 'left', edge: 0 }),
    fold('R', { panel: 'plate', edge: 2, from: 0, to: 50 }, { panel: 'right', edge: 0 }),
  ],
);

/** A notch between two walls whose flanges are longer than the notch is wide. */
const longFlangesRoundANotch = part(
  [
    panel(
      'plate',
      polygon([0, 0], [100, 0], [100, 60], [70, 60], [70, 20], [30, 20], [30, 60], [0, 60]),
    ),
    panel('east', rectangle(0, 0, 30, 25)),
    panel('west', rectangle(0, 0, 30, 25)),
  ],
  [
    fold('E', { panel: 'plate', edge: 3, from: 0, to: 30 }, { panel: 'east', edge: 0 }),
    fold('W', { panel: 'plate', edge: 5, from: 10, to: 40 }, { panel: 'west', edge: 0 }),
  ],
);

/** Every way in which a part cannot be flattened, with what the finding must name. */
it.each<readonly [string, Part, string, RegExp]>([
  [
    'a leg shorter than its bend',
    angle(60, 2, 80, 90, 3, 3),
    'leg-too-short',
    /leg B reaches 2 mm.*takes 6 mm.*longer than 6 mm/,
  ],
  [
    'a leg exactly as long as its bend',
    angle(60, 6, 80, 90, 3, 3),
    'leg-too-short',
    /longer than 6 mm/,
  ],
  [
    'a web narrower than its two bends',
    web(11),
    'leg-too-short',
    /web is too narrow for fold B and fold A.*more than 12 mm/,
  ],
  ['a web exactly as wide as its two bends', web(12), 'leg-too-short', /more than 12 mm/],
  ['two folds on one line that touch', touching, 'no-room-for-relief', /leave at least 9 mm/],
  [
    'a relief deeper than its wall',
    wallWithNarrowLip(10),
    'no-room-for-relief',
    /wall.*at least 2 mm more/,
  ],
  [
    'reliefs that swallow the base',
    prism(3, 38.1, 47.7, 10.2, 134, 5.7, 3),
    'relief-cuts-through',
    /base/,
  ],
  [
    'flanges that overlap in the flat',
    longFlangesRoundANotch,
    'flat-overlap',
    /(east|west) runs into .*seam/,
  ],
  ['a box whose bends meet on its base', box(14, 60, 40, 90, 4, 3), 'leg-too-short', /base/],
])('%s is refused, on either hand', (_, asked, rule, says) => {
  for (const p of [asked, mirrorPart(asked)]) {
    const { findings } = flatten(p, K);
    const stops = findings.filter((f) => f.severity === 'stop');
    expect(stops.map((f) => f.rule)).toContain(rule);
    expect(stops.find((f) => f.rule === rule)?.message).toMatch(says);
  }
});

it('just beyond the limit each of them is made', () => {
  for (const p of [angle(60, 6.01, 80, 90, 3, 3), web(12.01), wallWithNarrowLip(12.1)])
    expect(flatten(p, K).findings).toEqual([]);
});
