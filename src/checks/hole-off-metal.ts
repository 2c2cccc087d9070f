import { lacks } from '../model/measured.ts';
import { atLeast, atMost, figure } from '../text/figures.ts';
import { loopExtents } from '../geometry/extents.ts';
import { loopGap, pointGap } from '../geometry/gap.ts';
import { isInside } from '../geometry/inside.ts';
import type { Loop } from '../geometry/loop.ts';
import { moveLoop, shift } from '../geometry/motion2.ts';
import { slideRoom } from '../geometry/slide.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import { dot, sub, type Vec2 } from '../geometry/vec2.ts';
import { type Finding, refuse } from '../model/finding.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { PlaceFigure } from '../model/part.ts';
import { type Check, entryOf, type Hole, nameOf } from './check.ts';

/** A hole that is not wholly inside the outline. Only the first hole of a pattern is reported. */
export const holeOffMetal: Check = {
  rule: 'hole-off-metal',
  title: 'A hole does not lie wholly on the metal.',
  severities: ['stop'],
  reason: 'A cutter would leave the blank, and the outline would not be one closed line.',
  source: 'geometry',
  measured: 'the edge of the hole against the outline of the blank',
  mend: 'Move it in, or make it smaller.',
  run: ({ flat, holes }) => {
    const off = holes.flatMap((hole, i) => {
      const how = lies(flat, hole);
      const otherWay = flat.cutouts[i]?.otherWay;
      return how === 'inside' ? [] : [{ hole, how, otherWay }];
    });
    const entries = new Map(
      off.toReversed().map(({ hole, how, otherWay }) => [
        entryOf(hole),
        {
          hole,
          how,
          otherWay,
          count: off.filter((o) => entryOf(o.hole) === entryOf(hole)).length,
        },
      ]),
    );
    return [...entries.values()].toReversed().map(({ hole, how, otherWay, count }) => ({
      ...told(flat, hole, how, count, exchanged(flat, hole, otherWay)),
      panel: hole.panel,
      at: hole.centre,
      ...lacks(metalMm(flat, hole), 0),
    }));
  },
};

type How = 'inside' | 'off' | 'across';

function lies(flat: FlatPattern, hole: Hole): How {
  const [first] = hole.curve;
  if (first === undefined || hole.diameterMm === 0) return 'inside';
  if (loopGap(hole.curve, flat.outline, 2 * NOISE_MM) <= NOISE_MM) return 'across';
  return isInside(flat.outline, [first.x, first.y]) ? 'inside' : 'off';
}

/** What is said of it; `others` are ways out that go before moving it. */
function told(
  flat: FlatPattern,
  hole: Hole,
  how: 'off' | 'across',
  count: number,
  others: readonly string[],
): Finding {
  const given =
    hole.figures.length === 0
      ? ''
      : ` (${hole.figures.map(({ from, mm }) => `${from} ${figure(mm)}`).join(', ')})`;
  const more =
    count === 1
      ? ''
      : `, as ${count === 2 ? 'does one more' : `do ${count - 1} more`} of its pattern`;
  const what = `${nameOf(hole)}${given} ${how === 'off' ? 'lies off the metal' : 'crosses the outline'}${more}`;
  // A pattern is moved as a whole, and the figures of its first hole do not say how far.
  const places = count === 1 ? placesOf(flat, hole) : [];
  const room = isInside(flat.outline, hole.centre) ? 2 * pointGap(hole.centre, flat.outline) : 0;
  const smaller =
    hole.diameterMm === undefined
      ? 'make it smaller'
      : room < 0.1
        ? 'make it smaller'
        : `make its diameter less than ${atMost(room)}`;
  const inwards =
    places.length > 0
      ? `give ${places.join(' and ')}`
      : how === 'off'
        ? 'move it onto the metal'
        : 'move it inwards';
  const ways = [...others, inwards, ...(how === 'across' ? [smaller] : [])];
  return refuse(holeOffMetal, hole.inputs, what, [], ...ways);
}

/**
 * The two figures of a hole in short form in the other order, where that puts it on its panel: they
 * are easily written the wrong way about.
 */
function exchanged(flat: FlatPattern, hole: Hole, otherWay: Vec2 | undefined): string[] {
  const panel = flat.panels.find(({ id }) => id === hole.panel);
  const [first, second] = hole.figures;
  if (otherWay === undefined || panel === undefined || !first || !second) return [];
  const region = moveLoop(panel.placement, panel.region);
  const { minX, minY, maxX, maxY } = hole.box;
  const half = Math.max(maxX - minX, maxY - minY) / 2;
  if (!isInside(region, otherWay) || pointGap(otherWay, region) < half) return [];
  return [
    `exchange its two figures (${first.from} ${figure(second.mm)}, ${second.from} ${figure(first.mm)})`,
  ];
}

/**
 * Width of the metal at the edge of a hole, mm, where it is narrowest. A negative width says how
 * far the hole reaches beyond the outline.
 */
function metalMm({ outline }: FlatPattern, { curve, centre, diameterMm }: Hole): number {
  const inside = (p: Vec2): number => pointGap(p, outline) * (isInside(outline, p) ? 1 : -1);
  return diameterMm === undefined
    ? Math.min(...curve.map(({ x, y }) => inside([x, y])))
    : inside(centre) - diameterMm / 2;
}

/**
 * The values that the figures of a hole may have for the hole to lie on the flat of its own panel:
 * values of one figure where changing one is enough, of both otherwise.
 */
function placesOf(flat: FlatPattern, hole: Hole): string[] {
  const panel = flat.panels.find(({ id }) => id === hole.panel);
  const within = [
    flat.outline,
    ...(panel === undefined ? [] : [moveLoop(panel.placement, panel.region)]),
  ];
  for (const f of hole.figures) {
    const room = slideRoom(hole.curve, within, f.towards);
    if (room !== undefined) return [range(f, room)];
  }
  const [first, second] = hole.figures;
  if (first === undefined || second === undefined) return [];
  const [home = []] = within.slice(-1);
  const aside = dot(sub(middleOf(home), hole.centre), second.towards);
  const firstRoom = slideRoom(moved(hole.curve, second.towards, aside), within, first.towards);
  if (firstRoom === undefined) return [];
  const at = moved(hole.curve, first.towards, (firstRoom[0] + firstRoom[1]) / 2);
  const secondRoom = slideRoom(at, within, second.towards);
  return secondRoom === undefined ? [] : [range(first, firstRoom), range(second, secondRoom)];
}

const range = ({ from, mm }: PlaceFigure, [low, high]: readonly [number, number]): string =>
  `${from} ${atLeast(mm + low)} to ${atMost(mm + high)}`;

const moved = (loop: Loop, towards: Vec2, by: number): Loop =>
  moveLoop(shift(by * towards[0], by * towards[1]), loop);

const middleOf = (loop: Loop): Vec2 => {
  const box = loopExtents(loop) ?? { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  return [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
};
