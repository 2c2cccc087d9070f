import { describeInputs, readInputs } from '../../forms/read.ts';
import type { Template } from '../../forms/template.ts';
import { along, distance, scale, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import type { PictureItem } from '../../model/picture.ts';
import { SCHEMATIC, type Schematic, type SchematicSize } from '../../model/schematic.ts';
import { arrow } from '../../paper/draw/dimension-line.ts';
import { CENTRE, EDGE, HIDDEN, NARROW } from '../../paper/draw/line-types.ts';
import { line } from '../../paper/draw/strokes.ts';
import type { ScreenSize } from '../show/part-pictures.ts';
import type { LetteredSketch } from './lettered-sketch.ts';

const LETTER_MM = 6;
/** Clear paper round a letter. */
const DISC_MM = 3.4;
/** A line that is shorter has its letter beside it, and its arrows point at it from outside. */
const LEAST_LINE_MM = 13;
const BESIDE_MM = 8;
const STROKES = { thin: NARROW, hidden: HIDDEN, centre: CENTRE } as const;

/** The schematics of a family for some inputs, lettered; none where the inputs are wrong. */
export const schematicSketches = (
  template: Template,
  { widthMm, heightMm }: ScreenSize,
  inputs: Readonly<Record<string, unknown>>,
): LetteredSketch[] => {
  const read = readInputs(template, inputs);
  if (template.schematics === undefined || !read.ok) return [];
  const letters = new Map(describeInputs(template).map(({ name, letter }) => [name, letter]));
  const by = Math.min(widthMm / SCHEMATIC.width, heightMm / SCHEMATIC.height);
  return template.schematics({ benders: [], ...read.values }).map(({ of, ...drawn }) => {
    const sizes = drawn.sizes.flatMap((size) => {
      const letter = letters.get(size.input);
      return letter === undefined ? [] : [{ letter, ...lettered(size, letter, by) }];
    });
    return {
      ...(of !== undefined && { piece: of }),
      picture: {
        widthMm,
        heightMm,
        items: [...linesOf(drawn, by), ...sizes.flatMap(({ items }) => items)],
      },
      spots: sizes.map(({ input, middle: [x, y] }) => ({
        of: input,
        box: {
          minX: x - DISC_MM - 1,
          maxX: x + DISC_MM + 1,
          minY: y - DISC_MM - 1,
          maxY: y + DISC_MM + 1,
        },
      })),
      letters: Object.fromEntries(sizes.map(({ input, letter }) => [input, letter])),
    };
  });
};

const linesOf = ({ lines }: Pick<Schematic, 'lines'>, by: number): PictureItem[] =>
  lines.map(({ points, as }) => ({
    kind: 'curve',
    pieces: points.slice(1).map((to, i) => ({
      from: scale(points[i] as Vec2, by),
      to: scale(to, by),
      bulge: 0,
    })),
    stroke: as === undefined ? EDGE : STROKES[as],
  }));

interface Lettered {
  readonly input: string;
  readonly middle: Vec2;
  readonly items: readonly PictureItem[];
}

const lettered = (size: SchematicSize, letter: string, by: number): Lettered => {
  const { items, middle } = 'at' in size ? onArc(size, by) : onLine(size, by);
  return {
    input: size.input,
    middle,
    items: [
      ...items,
      { kind: 'round', centre: middle, radiusMm: DISC_MM, fill: 1 },
      {
        kind: 'label',
        at: [middle[0], middle[1] - 0.3 * LETTER_MM],
        sizeMm: LETTER_MM,
        text: letter,
        align: 'middle',
        isBold: true,
      },
    ],
  };
};

const onLine = (
  { feet, ...size }: Extract<SchematicSize, { from: Vec2 }>,
  by: number,
): Omit<Lettered, 'input'> => {
  const [a, b] = [scale(size.from, by), scale(size.to, by)];
  const way = unit(sub(b, a));
  const isShort = distance(a, b) < LEAST_LINE_MM;
  const middle = isShort ? along(b, way, BESIDE_MM) : scale([a[0] + b[0], a[1] + b[1]], 0.5);
  return {
    middle,
    items: [
      ...(feet ?? []).map((foot, i) => line(scale(foot, by), i === 0 ? a : b, NARROW)),
      line(isShort ? along(a, way, -BESIDE_MM / 2) : a, isShort ? middle : b, NARROW),
      arrow(a, way, isShort ? -1 : 1),
      arrow(b, way, isShort ? 1 : -1),
    ],
  };
};

const CHORDS = 16;

const onArc = (
  { at, radius, fromDeg, toDeg }: Extract<SchematicSize, { at: Vec2 }>,
  by: number,
): Omit<Lettered, 'input'> => {
  const tip = scale(at, by);
  const pointAt = (deg: number, reach = radius * by): Vec2 => [
    tip[0] + reach * Math.cos((deg * Math.PI) / 180),
    tip[1] + reach * Math.sin((deg * Math.PI) / 180),
  ];
  const points = Array.from({ length: CHORDS + 1 }, (_, i) =>
    pointAt(fromDeg + ((toDeg - fromDeg) * i) / CHORDS),
  );
  const isShort = ((toDeg - fromDeg) * Math.PI * radius * by) / 180 < LEAST_LINE_MM;
  const middle = isShort
    ? pointAt((fromDeg + toDeg) / 2, radius * by + BESIDE_MM * 0.75)
    : pointAt((fromDeg + toDeg) / 2);
  const [first, second] = points as [Vec2, Vec2];
  const [before, last] = points.slice(-2) as [Vec2, Vec2];
  return {
    middle,
    items: [
      ...[fromDeg, toDeg].map((deg) => line(tip, pointAt(deg, radius * by + 2), NARROW)),
      ...points.slice(1).map((to, i) => line(points[i] as Vec2, to, NARROW)),
      arrow(first, unit(sub(second, first)), 1),
      arrow(last, unit(sub(before, last)), 1),
    ],
  };
};
