import { generate, correction } from 'lean-qr';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { PictureItem } from '../../model/picture.ts';
import { type PaperMark, paperMarkText } from '../../model/paper-mark.ts';
import { fileNumber } from '../../text/file-number.ts';
import { ring } from './strokes.ts';

/** White modules round the code, without which readers do not find it (ISO/IEC 18004). */
const QUIET = 4;

/** A code in modules: its size with the quiet zone, and the rims of what is black, y down. */
interface SquareCode {
  readonly size: number;
  readonly rims: readonly (readonly Vec2[])[];
}

/**
 * The code of a mark (QR, ISO/IEC 18004), repaired by readers where up to 15 hundredths are lost under
 * oil. The same mark gives the same code.
 */
const codeOf = (mark: PaperMark): SquareCode => {
  const before = known.get(mark);
  if (before !== undefined) return before;
  const made = madeCode(mark);
  known.set(mark, made);
  return made;
};

/** Every page of a part's papers bears the code of the same mark. */
const known = new WeakMap<PaperMark, SquareCode>();

const madeCode = (mark: PaperMark): SquareCode => {
  const bits = generate(paperMarkText(mark), { minCorrectionLevel: correction.M });
  const isBlack = (x: number, y: number): boolean => bits.get(x, y);
  return {
    size: bits.size + 2 * QUIET,
    rims: rimsOf(bits.size, isBlack).map((rim) =>
      rim.map(([x, y]): Vec2 => [x + QUIET, y + QUIET]),
    ),
  };
};

/** The code as a picture, a side as long as asked for, quiet zone included, its lower left corner at a point. */
export const codeItems = (mark: PaperMark, sideMm: number, [x, y]: Vec2): PictureItem[] => {
  const { size, rims } = codeOf(mark);
  const scale = sideMm / size;
  return [
    {
      kind: 'area',
      rims: rims.map((rim) =>
        ring(rim.map(([u, v]): Vec2 => [x + u * scale, y + sideMm - v * scale])),
      ),
      fill: 0,
    },
  ];
};

/** The code as an `<svg>` of a style sheet's size, on white whatever stands round it. */
export const codeSvg = (mark: PaperMark, sideMm: number): string => {
  const { size, rims } = codeOf(mark);
  const path = rims
    .map(([first, ...rest]) => {
      const [x, y] = first as Vec2;
      return `M${x} ${y}${rest.map(([u, v], i) => (i % 2 === 0 ? `H${u}` : `V${v}`)).join('')}Z`;
    })
    .join('');
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${fileNumber(sideMm)}mm" height="${fileNumber(sideMm)}mm" viewBox="0 0 ${size} ${size}" shape-rendering="crispEdges"><path d="M0 0H${size}V${size}H0Z" fill="#fff"/><path d="${path}" fill-rule="evenodd"/></svg>`;
};

/**
 * The rims of all black modules that lie side by side, corners alone, each beginning with a level edge.
 * Drawn module by module, hairs of white would stand between them.
 */
const rimsOf = (size: number, isBlack: (x: number, y: number) => boolean): Vec2[][] => {
  const next = new Map<number, Vec2[]>();
  const keyOf = ([x, y]: Vec2): number => y * (size + 1) + x;
  const edge = (from: Vec2, to: Vec2): void => {
    const key = keyOf(from);
    const others = next.get(key);
    if (others === undefined) next.set(key, [to]);
    else others.push(to);
  };
  for (let y = 0; y < size; y++)
    for (let x = 0; x < size; x++) {
      if (!isBlack(x, y)) continue;
      if (!isBlack(x, y - 1)) edge([x, y], [x + 1, y]);
      if (!isBlack(x + 1, y)) edge([x + 1, y], [x + 1, y + 1]);
      if (!isBlack(x, y + 1)) edge([x + 1, y + 1], [x, y + 1]);
      if (!isBlack(x - 1, y)) edge([x, y + 1], [x, y]);
    }
  const rims: Vec2[][] = [];
  for (const [key] of next) {
    // Every rim has been walked by way of one of its corners before.
    while ((next.get(key)?.length ?? 0) > 0) {
      const rim: Vec2[] = [];
      for (let at = key; ;) {
        const to = next.get(at)?.pop();
        if (to === undefined) break;
        rim.push(to);
        at = keyOf(to);
      }
      rims.push(cornersOf(rim));
    }
  }
  return rims;
};

/** Without the points on straight stretches, beginning where a level edge does. */
const cornersOf = (rim: readonly Vec2[]): Vec2[] => {
  const at = (i: number): Vec2 => rim[(i + rim.length) % rim.length] as Vec2;
  const isLevel = (i: number): boolean => at(i)[1] === at(i + 1)[1];
  const corners = rim.flatMap((_, i) => (isLevel(i - 1) === isLevel(i) ? [] : [i]));
  const first = corners.findIndex((i) => isLevel(i));
  return [...corners.slice(first), ...corners.slice(0, first)].map(at);
};
