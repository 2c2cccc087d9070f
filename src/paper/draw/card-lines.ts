import { type Printed, printedIn } from '../../text/printed.ts';
import { loopExtents } from '../../geometry/extents.ts';
import { piecesOf } from '../../geometry/piece.ts';
import { along, type Vec2 } from '../../geometry/vec2.ts';
import type { Drawing } from '../../model/drawing.ts';
import { formMarks } from '../../model/formed.ts';
import type { FlatCutout, FlatPattern } from '../../model/flat.ts';
import type { Label, PictureItem } from '../../model/picture.ts';
import { type Ground, type Line2, runsThrough, textGround } from './ground.ts';
import { EDGE, FOLDS, HOLE, NARROW, ROLL } from './line-types.ts';
import { line } from './strokes.ts';
import { BlankTextRoom, type TextItem, textWidth } from './blank-text-room.ts';

/** Height of a capital over the size of its font, in Helvetica. */
export const CAPITAL = 0.72;

/** A blank at true size as it is drawn on card, in its own coordinates. `drawing` has its texts. */
export function cardLines(flat: FlatPattern, drawing: Drawing, print = printedIn()): PictureItem[] {
  const texts = drawing.items.filter((item): item is TextItem => item.kind === 'text');
  const labels = [
    ...texts.map((item) => ({ ...item, text: printedText(item.text, print) })),
    ...holeSizes(flat, texts, print),
  ].map(labelOf);
  const grounds = labels.map((label) => textGround(label));
  return [
    { kind: 'area', rims: [piecesOf(flat.outline)], stroke: EDGE },
    ...flat.bends.map(({ centreLine: [from, to], direction }): PictureItem =>
      line(from, to, FOLDS[direction]),
    ),
    ...formMarks(flat).map(({ from, to }): PictureItem => line(from, to, ROLL)),
    ...flat.cutouts.flatMap((hole) => cutLines(hole, grounds)),
    ...labels,
  ];
}

/**
 * A text of the cut file as the card has it: radii of bends, drills and countersinks in the unit of
 * the card; threads and the name of the sheet as the standards have them.
 */
const printedText = (text: string, { unit, machine }: Printed): string =>
  unit === 'mm'
    ? text
    : text.replace(
        /\b(R|D|csk )(\d+(?:\.\d+)?)(?![\w.])/g,
        (_, what: string, mm: string) => what + machine(Number(mm)),
      );

const cutLines = (hole: FlatCutout, texts: readonly Ground[]): PictureItem[] => {
  if (hole.kind === 'round') {
    const radius = hole.diameterMm / 2;
    return [
      { kind: 'round', centre: hole.centre, radiusMm: radius, stroke: HOLE },
      ...cross(hole.centre, radius, radius + CROSS_REACH_MM, texts),
    ];
  }
  const box = loopExtents(hole.loop);
  const rim: PictureItem = { kind: 'area', rims: [piecesOf(hole.loop)], stroke: HOLE };
  return box === undefined || hole.fold !== undefined
    ? [rim]
    : [rim, ...cross([(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2], 0, 3, texts)];
};

/** How far a cross reaches beyond its hole, mm. */
const CROSS_REACH_MM = 2;

/**
 * A cross to centre-punch or drill through. An arm that would run into a text ends at the rim of the
 * hole.
 */
const cross = (
  at: Vec2,
  radius: number,
  reach: number,
  texts: readonly Ground[],
): PictureItem[] => {
  const armEnd = (way: Vec2): Vec2 => {
    const whole = along(at, way, reach);
    const beyond: Line2 = [along(at, way, radius), whole];
    return texts.some((text) => runsThrough(text, beyond)) ? along(at, way, radius) : whole;
  };
  return [
    line(armEnd([-1, 0]), armEnd([1, 0]), NARROW),
    line(armEnd([0, -1]), armEnd([0, 1]), NARROW),
  ];
};

const labelOf = ({ at, heightMm, angleDeg, text }: TextItem): Label => ({
  kind: 'label',
  at,
  sizeMm: heightMm / CAPITAL,
  angleDeg,
  text,
});

/** From so many holes of a diameter on, one of them speaks for all. */
const MANY = 6;
const LETTERS_MM = [3.5, 2.5, 1.8, 1.3] as const;

/** The diameter beside each hole, where there is room. */
function holeSizes(flat: FlatPattern, texts: readonly TextItem[], { tape }: Printed): TextItem[] {
  const room = new BlankTextRoom(flat);
  room.take(...texts);
  const told = new Map<number, number>();
  const round = flat.cutouts.filter((hole) => hole.kind === 'round');
  return round.flatMap(({ name, centre, diameterMm }): TextItem[] => {
    const same = round.filter((other) => other.diameterMm === diameterMm).length;
    const count = told.get(diameterMm) ?? 0;
    told.set(diameterMm, count + 1);
    if (same > MANY && count > 0) return [];
    const size = `Ø${tape(diameterMm)}`;
    const texts = same > MANY ? [`${same} x ${size}`] : [`${name ?? ''} ${size}`.trim(), size];
    const places = texts.flatMap((text) =>
      LETTERS_MM.flatMap((height) => beside(centre, diameterMm / 2, text, height)),
    );
    return room.place(places.map((place) => [place])) ?? [];
  });
}

const beside = ([x, y]: Vec2, radius: number, text: string, heightMm: number): TextItem[] => {
  const width = textWidth(text, heightMm);
  const off = radius + CROSS_REACH_MM + 0.5;
  return (
    [
      [x + off, y - heightMm / 2],
      [x - off - width, y - heightMm / 2],
      [x - width / 2, y + off],
      [x - width / 2, y - off - heightMm],
    ] as const
  ).map((at): TextItem => ({ kind: 'text', role: 'note', at, heightMm, angleDeg: 0, text }));
};
