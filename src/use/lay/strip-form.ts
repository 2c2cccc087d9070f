import * as fields from '../../forms/fields.ts';
import { checked, list, made, pair, section } from '../../forms/sections.ts';
import { selfCrossing } from '../../geometry/self-crossing.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import { signedArea } from '../../lay/strip-task.ts';

/** More items than this are not searched for a layout. */
export const MOST_ITEMS = 2000;

const LARGEST = 1e6;
const NARROWEST = 0.001;

const point = pair<number>(
  fields.number({ about: 'A figure of a point.', what: 'a figure', min: -LARGEST, max: LARGEST }),
  'a point [x, y]',
);

/** Points that stand twice, one behind the other, as many a file has them, are one. */
const withoutRepeats = (points: readonly Vec2[]): readonly Vec2[] =>
  points.filter((p, i) => {
    const [x, y] = points.at(i - 1) as Vec2;
    return Math.hypot(p[0] - x, p[1] - y) > REPEATED;
  });

/** No file means two corners that are as near to each other as this. */
const REPEATED = 1e-6;

const polygon = checked(
  made(
    list('The outline of an item.', point, { what: 'points [x, y]', min: 3, max: 2000 }),
    withoutRepeats,
  ),
  (points, disagree) => {
    if (!encloses(points))
      disagree([], 'an outline with some area that does not cross itself', 'mend the outline');
  },
);

const encloses = (points: readonly Vec2[]): boolean =>
  points.length > 2 &&
  Math.abs(signedArea(points)) > 0 &&
  selfCrossing(points.map(([x, y]) => ({ x, y, bulge: 0 }))) === undefined;

const item = section(
  'A kind of item.',
  {
    id: fields.number({ about: 'Its number.', what: 'a number', min: 0, max: 1e9 }),
    demand: fields.count({ about: 'How many there are.', min: 1, max: MOST_ITEMS }),
    allowedRotations: list(
      'The turns that it may be laid in.',
      fields.number({ about: 'A turn in degrees.', what: 'degrees', min: -360, max: 360 }),
      { what: 'turns in degrees', min: 1, max: 360 },
    ),
    polygon,
  },
  'passed over',
);

/** Form of a strip and what is laid on it. Other names in the file are passed over. */
export const STRIP = checked(
  section(
    'A strip.',
    {
      stripWidth: fields.number({
        about: 'Its width.',
        what: 'a width',
        min: NARROWEST,
        max: LARGEST,
      }),
      items: list('What is laid.', item, { what: 'items', min: 1, max: MOST_ITEMS }),
    },
    'passed over',
  ),
  ({ items, stripWidth }, disagree) => {
    const all = items.reduce((sum, { demand }) => sum + demand, 0);
    if (all > MOST_ITEMS) disagree(['items'], `at most ${MOST_ITEMS} things in all`);
    for (const [i, { id }] of items.entries())
      if (items.findIndex((other) => other.id === id) < i)
        disagree(['items', i, 'id'], 'a number that no other item has');
    for (const [i, { polygon: points, allowedRotations }] of items.entries())
      if (!allowedRotations.some((deg) => heightTurned(points, deg) <= stripWidth * (1 + SLACK)))
        disagree(
          ['items', i],
          `an item that goes across the strip of ${stripWidth} in one of its turns`,
          'widen the strip, or allow another turn',
        );
  },
);

/** An item as wide as the strip is not refused for the noise of its turn. */
const SLACK = 1e-9;

const heightTurned = (points: readonly Vec2[], deg: number): number => {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  const ys = points.map(([x, y]) => s * x + c * y);
  return Math.max(...ys) - Math.min(...ys);
};
