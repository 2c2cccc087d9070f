import { withChords } from '../../geometry/chords.ts';
import type { Loop } from '../../geometry/loop.ts';
import { PROOF_MM } from '../../geometry/tolerance.ts';
import type { DrawingItem } from '../../model/drawing.ts';
import type { CutterImport } from '../../model/shop.ts';
import { MM_PER_INCH } from '../../text/units.ts';
import { isCut } from './layers.ts';
import { fileNumber } from '../../text/file-number.ts';

/**
 * The middles of chords lie no farther than this from their arc, mm: half of the error that a file
 * may have.
 */
const FILE_CHORD_MM = PROOF_MM / 2;

/**
 * The items of a file in the form that a cutter's program wants: on one layer, where the program
 * would cut what lies on any layer; chords in place of arcs; inches in place of millimetres. With
 * one layer, everything that is not cut is left out.
 */
export const inForm = (
  items: readonly DrawingItem[],
  { layers, curves, units }: CutterImport,
): DrawingItem[] => {
  const kept =
    layers === 'merged'
      ? items
          .filter(({ role }) => isCut(role))
          .map((item): DrawingItem => ({ ...item, role: 'cut' }))
      : items;
  const drawn = curves === 'chords' ? kept.map(chorded) : kept;
  return units === 'inch' ? drawn.map(inInches) : [...drawn];
};

const chorded = (item: DrawingItem): DrawingItem => {
  if (item.kind === 'loop') return { ...item, loop: polygonOf(item.loop) };
  if (item.kind !== 'circle') return item;
  const {
    role,
    centre: [x, y],
    radius,
  } = item;
  return {
    kind: 'loop',
    role,
    loop: polygonOf([
      { x: x + radius, y, bulge: 1 },
      { x: x - radius, y, bulge: 1 },
    ]),
  };
};

const polygonOf = (loop: Loop): Loop =>
  withChords(loop, FILE_CHORD_MM).map(({ x, y, bulge }) => ({
    x: fileNumber(x),
    y: fileNumber(y),
    bulge,
  }));

const INCH_STEPS = 1e7;

/** Seven decimals of an inch are finer than four of a millimetre. */
const inch = (mm: number): number => Math.round((mm / MM_PER_INCH) * INCH_STEPS) / INCH_STEPS + 0;

const inInches = (item: DrawingItem): DrawingItem => {
  switch (item.kind) {
    case 'loop':
      return {
        ...item,
        loop: item.loop.map(({ x, y, bulge }) => ({ x: inch(x), y: inch(y), bulge })),
      };
    case 'circle':
      return {
        ...item,
        centre: [inch(item.centre[0]), inch(item.centre[1])],
        radius: inch(item.radius),
      };
    case 'line':
      return {
        ...item,
        from: [inch(item.from[0]), inch(item.from[1])],
        to: [inch(item.to[0]), inch(item.to[1])],
      };
    case 'text':
      return { ...item, at: [inch(item.at[0]), inch(item.at[1])], heightMm: inch(item.heightMm) };
  }
};
