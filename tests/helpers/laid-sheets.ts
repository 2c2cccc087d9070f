import { type Loop, polygon, rectangle } from '../../src/geometry/loop.ts';
import { circle } from '../../src/geometry/shapes.ts';
import type { Drawing, DrawingItem } from '../../src/model/drawing.ts';
import type { LaidPart, LaidSheet } from '../../src/model/laid.ts';
import type { StockPiece } from '../../src/model/stock.ts';

/** Drawings and sheets laid by hand, for what reads layouts. */

const drawing = (title: string, outline: Loop, ...more: readonly DrawingItem[]): Drawing => ({
  title,
  items: [{ kind: 'loop', role: 'outline', loop: outline }, ...more],
});

const hole = (x: number, y: number, radius: number): DrawingItem => ({
  kind: 'circle',
  role: 'hole',
  centre: [x, y],
  radius,
});

/** An angle with a fold, which is not its own mirror image. */
const ANGLE = drawing(
  'lamp-bracket',
  polygon([0, 0], [120, 0], [120, 40], [50, 40], [50, 90], [0, 90]),
  hole(20, 20, 5),
  hole(100, 20, 4),
  { kind: 'line', role: 'fold-up', from: [0, 50], to: [50, 50] },
  {
    kind: 'text',
    role: 'note',
    at: [4, 54],
    heightMm: 2.5,
    angleDeg: 0,
    text: 'A 90 UP R3',
    turnedOver: 'A 90 DOWN R3',
  },
);

const RING = drawing('drum-ring', circle([100, 100], 100), {
  kind: 'loop',
  role: 'hole',
  loop: circle([100, 100], 70),
});

const STRAP = drawing(
  'tank-strap',
  [
    { x: 15, y: 0, bulge: 0 },
    { x: 385, y: 0, bulge: 1 },
    { x: 385, y: 30, bulge: 0 },
    { x: 15, y: 30, bulge: 1 },
  ],
  hole(15, 15, 5),
  hole(385, 15, 5),
);

const WASHER = drawing('washer', circle([20, 20], 20), hole(20, 20, 8));

const GUSSET = drawing('gusset', polygon([0, 0], [60, 0], [0, 60]));

const LID = drawing('lid', rectangle(0, 0, 90, 60));

export const DRAWINGS: ReadonlyMap<string, Drawing> = new Map([
  ['lamp-bracket', ANGLE],
  ['drum-ring', RING],
  ['tank-strap', STRAP],
  ['washer', WASHER],
  ['gusset', GUSSET],
  ['lid', LID],
]);

export const laidPart = (
  name: string,
  xMm: number,
  yMm: number,
  more: Partial<LaidPart> = {},
): LaidPart => ({ name, copy: 1, xMm, yMm, turnDeg: 0, turnedOver: false, ...more });

export const stock = (more: Partial<StockPiece> = {}): StockPiece => ({
  name: '1000 x 500',
  isRemnant: false,
  outline: rectangle(0, 0, 1000, 500),
  holes: [],
  ...more,
});

export const laidSheet = (
  name: string,
  parts: readonly LaidPart[],
  more: Partial<LaidSheet> = {},
): LaidSheet => ({
  name,
  stock: stock(),
  material: 's235',
  thicknessMm: 3,
  gapMm: 8,
  edgeMm: 10,
  parts,
  ...more,
});

/** Each kind of part once or twice: turned, turned over, and in the hole of another. */
export const MIXED = laidSheet('s235-3-1', [
  laidPart('drum-ring', 10, 10),
  laidPart('washer', 65, 90),
  laidPart('washer', 115, 90, { copy: 2 }),
  laidPart('lamp-bracket', 230, 10),
  laidPart('lamp-bracket', 360, 110, { copy: 2, turnedOver: true }),
  laidPart('lamp-bracket', 500, 200, { copy: 3, turnDeg: 90 }),
  laidPart('tank-strap', 400, 10, {}),
  laidPart('tank-strap', 400, 48, { copy: 2 }),
  laidPart('washer', 10, 220, { copy: 3 }),
  laidPart('gusset', 500, 400, { turnDeg: 180 }),
  laidPart('gusset', 620, 300, { copy: 2, turnDeg: 30, turnedOver: true }),
]);

/** A remnant of odd shape that has been cut into before. */
export const REMNANT = laidSheet(
  's235-3-2',
  [
    laidPart('lamp-bracket', 20, 20),
    laidPart('gusset', 300, 40),
    laidPart('washer', 20, 140),
    laidPart('washer', 68, 140, { copy: 2 }),
  ],
  {
    stock: stock({
      name: 'R7',
      isRemnant: true,
      outline: polygon([0, 0], [480, 0], [480, 120], [260, 180], [200, 320], [0, 320]),
      holes: [circle([220, 80], 45)],
      grain: 'x',
    }),
  },
);

/** Sixty parts on a large sheet, in rows; a few lie the other way round. */
export const SIXTY = laidSheet(
  's235-3-3',
  Array.from({ length: 60 }, (_, i): LaidPart => {
    const [column, row] = [i % 10, Math.floor(i / 10)];
    const turned = i % 3 === 1;
    return laidPart(
      'lamp-bracket',
      15 + 140 * column + (turned ? 120 : 0),
      15 + 100 * row + (turned ? 90 : 0),
      {
        copy: i + 1,
        turnDeg: turned ? 180 : 0,
      },
    );
  }),
  {
    stock: stock({ name: '2000 x 1000', outline: rectangle(0, 0, 2000, 1000), grain: 'y' }),
  },
);

export const ONE = laidSheet('s235-3-4', [laidPart('drum-ring', 10, 10)]);

/** Many small parts of different places, crowded. */
export const SMALL = laidSheet(
  's235-3-5',
  Array.from({ length: 40 }, (_, i) =>
    laidPart(
      'washer',
      12 + 49 * (i % 20) + (i % 7) * 0.3,
      12 + 60 * Math.floor(i / 20) + (i % 5) * 1.7,
      {
        copy: i + 1,
      },
    ),
  ),
  { stock: stock({ outline: rectangle(0, 0, 3000, 1500), name: '3000 x 1500' }) },
);
