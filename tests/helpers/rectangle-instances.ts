import { rectangle } from '../../src/geometry/loop.ts';
import type { LayRequest } from '../../src/lay/sheets/request.ts';
import { publishedFile } from './published.ts';
import type { StripInstance } from './strip-instances.ts';

interface Sized {
  readonly w: number;
  readonly h: number;
}

interface Wanted extends Sized {
  readonly demand: number;
}

interface OnStock {
  readonly name: string;
  readonly sheets: readonly (Sized & { readonly stock: number })[];
  readonly items: readonly Wanted[];
}

/** Rectangles to be cut from a limited stock of sheets of six sizes; the file names its source. */
export const RECTANGLES_ON_STOCK = publishedFile<{ readonly instances: readonly OnStock[] }>(
  'rectangles-on-stock',
).instances;

/** Millimetres to a unit of the file. */
const UNIT_MM = 10;

/** An instance as it is laid: no gap, quarter turns, and a sheet's area for its price. */
export const requestOf = ({ sheets, items }: OnStock): LayRequest => ({
  gapMm: 0,
  edgeMm: 0,
  parts: items.map(({ w, h, demand }, i) => ({
    name: `rectangle ${i}`,
    outline: rectangle(0, 0, w * UNIT_MM, h * UNIT_MM),
    holes: [],
    quantity: demand,
    turnsDeg: [0, 90],
    mayTurnOver: false,
    grain: 'free',
  })),
  pieces: sheets.map(({ w, h, stock }) => ({
    name: `${w} x ${h}`,
    isRemnant: false,
    count: stock,
    price: w * h,
    outline: rectangle(0, 0, w * UNIT_MM, h * UNIT_MM),
    holes: [],
  })),
});

export const areaOf = ({ items }: OnStock): number =>
  items.reduce((sum, { w, h, demand }) => sum + w * h * demand, 0);

interface OnStrip {
  readonly name: string;
  readonly stripWidth: number;
  readonly items: readonly Wanted[];
}

/** Rectangles that fill a strip without waste, as their authors cut them; quarter turns are allowed. */
export const RECTANGLES_ON_STRIP: readonly StripInstance[] = publishedFile<{
  readonly instances: readonly OnStrip[];
}>('rectangles-on-strip').instances.map(({ name, stripWidth, items }) => ({
  name,
  stripWidth,
  items: items.map(({ w, h, demand }, id) => ({
    id,
    demand,
    allowedRotations: [0, 90],
    polygon: [
      [0, 0],
      [w, 0],
      [w, h],
      [0, h],
    ],
  })),
}));
