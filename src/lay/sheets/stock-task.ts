import { type Extents, loopExtents } from '../../geometry/extents.ts';
import { signedArea } from '../../geometry/measure.ts';
import type { StockPiece } from '../../model/stock.ts';
import type { Choices, Sheet, Task } from '../layout.ts';
import type { Outline, Shape } from '../shapes.ts';
import { shapeOf } from '../shapes.ts';
import { type Ground, groundOf } from './ground.ts';
import { type Look, looksOf, looksOn, MOST_SHAPES, turnsOf } from './part-shapes.ts';
import { whyNowhere } from './reasons.ts';
import type { LayRequest, LeftOut, PartToLay } from './request.ts';

/** More parts than this are not laid in one go. */
export const MOST_COPIES = 1000;

/** Parts and stock as the search takes them. */
export interface StockTask {
  readonly task: Task;
  readonly request: LayRequest;
  /** Of each item the number of its part. */
  readonly partOf: readonly number[];
  /** Of each shape how its part lies. */
  readonly looks: readonly Pick<Look, 'turnedOver' | 'turnDeg'>[];
  /** Of each sheet the number of its piece of stock; remnants first, the smallest first. */
  readonly pieceOf: readonly number[];
  readonly grounds: readonly (Ground | undefined)[];
  /** Area of the metal of each part, mm2. */
  readonly areas: readonly number[];
  /** Parts that no sheet could take, or that are too many. */
  readonly left: readonly LeftOut[];
}

export const stockTask = (request: LayRequest): StockTask => {
  const { parts, pieces, gapMm } = request;
  const shapes: Shape[] = [];
  const looks: Pick<Look, 'turnedOver' | 'turnDeg'>[] = [];
  const form = numbered();
  const grounds = pieces.map((piece) => groundOf(piece, request));
  const left: LeftOut[] = [];
  const partOf: number[] = [];
  const items: Choices[] = [];
  const turns = turnsOf(parts);
  const leastMm = Math.min(...parts.map(leastSide));
  for (const [n, part] of parts.entries()) {
    const room = MOST_COPIES - items.length;
    const own =
      shapes.length >= MOST_SHAPES || room <= 0
        ? []
        : looksOf(part, turns[n] as readonly number[], gapMm / 2, leastMm, form);
    const choices = pieces.map((piece, k) =>
      looksOn(part, own, piece, grounds[k]).map((at) => at + shapes.length),
    );
    const canLie = choices.some((c) => c.length > 0);
    const count = canLie ? Math.min(part.quantity, room) : 0;
    if (own.length > 0 && !canLie) left.push(nowhere(part, request, own));
    else if (count < part.quantity) left.push(tooMany(part, part.quantity - count));
    if (count === 0) continue;
    shapes.push(...own.map(({ shape }) => shape));
    looks.push(...own.map(({ turnedOver, turnDeg }) => ({ turnedOver, turnDeg })));
    for (let k = 0; k < count; k++) {
      partOf.push(n);
      items.push(choices);
    }
  }
  const { sheets, pieceOf } = sheetsOf(request, grounds, items, shapes, form);
  return {
    task: { shapes, items, sheets, groups: groupsOf(parts, partOf) },
    request,
    partOf,
    looks,
    pieceOf,
    grounds,
    areas: parts.map(areaOf),
    left,
  };
};

/** A number for each outline, the same for the same one. */
const numbered = (): ((outline: Outline) => number) => {
  const known = new Map<string, number>();
  return (outline) => {
    const key = JSON.stringify(outline);
    const number = known.get(key) ?? known.size;
    known.set(key, number);
    return number;
  };
};

const nowhere = (part: PartToLay, request: LayRequest, looks: readonly Look[]): LeftOut => ({
  name: part.name,
  count: part.quantity,
  reason: whyNowhere(part, request, looks),
});

const tooMany = ({ name }: PartToLay, count: number): LeftOut => ({
  name,
  count,
  reason: `more than ${MOST_COPIES} parts, or too many different ones, are not laid in one go: lay them in several`,
});

const areaOf = ({ outline, holes }: PartToLay): number =>
  Math.abs(signedArea(outline)) - holes.reduce((sum, hole) => sum + Math.abs(signedArea(hole)), 0);

/** No part is narrower than half the lesser side of its box, but for slender ones that lie askew. */
const leastSide = ({ outline }: PartToLay): number => {
  const { minX, minY, maxX, maxY } = loopExtents(outline) as Extents;
  return Math.min(maxX - minX, maxY - minY) / 2;
};

const groupsOf = (
  parts: readonly PartToLay[],
  partOf: readonly number[],
): readonly (number | undefined)[] => {
  const words = [...new Set(parts.map(({ together }) => together))];
  return partOf.map((n) => {
    const word = (parts[n] as PartToLay).together;
    return word === undefined ? undefined : words.indexOf(word);
  });
};

/**
 * Sheets of every piece of stock: as many as there are, and no more than there are parts. Remnants
 * come first, the smallest first, then what is in stock, then what would be bought.
 */
const sheetsOf = (
  { pieces }: LayRequest,
  grounds: readonly (Ground | undefined)[],
  items: readonly Choices[],
  shapes: Shape[],
  form: (outline: Outline) => number,
): { readonly sheets: readonly Sheet[]; readonly pieceOf: readonly number[] } => {
  const rank = ({ isRemnant, count }: StockPiece): number =>
    isRemnant ? 0 : count === undefined ? 2 : 1;
  const area = ({ outline }: StockPiece): number => Math.abs(signedArea(outline));
  const order = pieces
    .map((piece, k) => ({ piece, k }))
    .toSorted((a, b) => rank(a.piece) - rank(b.piece) || area(a.piece) - area(b.piece));
  const sheets: Sheet[] = [];
  const pieceOf: number[] = [];
  for (const { piece, k } of order) {
    const ground = grounds[k];
    const going = items.filter((choices) => (choices[k] as readonly number[]).length > 0).length;
    const count = Math.min(piece.count ?? Infinity, going);
    if (ground === undefined || count === 0) continue;
    const fixed = ground.fixed.map((outline) => {
      const moved = shifted(outline, -ground.x, -ground.y);
      return { shape: shapes.push(shapeOf(moved, form(moved), 0)) - 1, x: 0, y: 0 };
    });
    for (let n = 0; n < count; n++) {
      pieceOf.push(k);
      sheets.push({ kind: k, length: ground.length, width: ground.width, fixed });
    }
  }
  return { sheets, pieceOf };
};

const shifted = ({ outer, holes }: Outline, x: number, y: number): Outline => {
  const move = (ring: Outline['outer']): Outline['outer'] => ring.map((p) => [p[0] + x, p[1] + y]);
  return { outer: move(outer), holes: holes.map(move) };
};
