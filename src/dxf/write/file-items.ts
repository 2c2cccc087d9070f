import type { Loop, Vertex } from '../../geometry/loop.ts';
import { PROOF_MM } from '../../geometry/tolerance.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { Drawing, DrawingItem } from '../../model/drawing.ts';
import { circleOf, fileLoop } from './file-loop.ts';
import { isCut, LAYERS } from './layers.ts';
import { fileAngle, fileNumber } from '../../text/file-number.ts';
import { singleLine } from '../../text/single-line.ts';

/**
 * The items of a drawing that go into a file, sorted by layer, or the cuts in their own order where
 * they have one, behind everything that needs the whole sheet: numbers rounded to the file's step,
 * full circles as circles, texts on one line. Nothing shorter than the error that a file may have
 * is kept, and nothing twice on one layer. With `cutOnly` only the lines to cut are kept. Throws on
 * our bugs: a number that is not finite, a negative radius or height, a text among the cuts.
 */
export const fileItems = (
  drawing: Drawing,
  { cutOnly }: { readonly cutOnly: boolean },
): DrawingItem[] => {
  const roles = LAYERS.map(({ role }) => role);
  const marked = cutOnly ? [] : roles.filter((role) => !isCut(role));
  const cuts = roles.filter(isCut);
  const groups = [
    ...marked.map((role) => [role]),
    ...(drawing.hasCutOrder === true ? [cuts] : cuts.map((role) => [role])),
  ];
  return groups.flatMap((group) => once(drawing.items.filter(({ role }) => group.includes(role))));
};

/** The items as they are written, nothing twice on one layer. */
const once = (items: readonly DrawingItem[]): DrawingItem[] => {
  const seen = new Set<string>();
  return items.flatMap((item) => {
    const written = fileItem(item);
    if (written === undefined) return [];
    const key = `${written.role} ${placeOf(written)}`;
    if (seen.has(key)) return [];
    seen.add(key);
    return [written];
  });
};

const filePoint = (p: Vec2): Vec2 => [fileNumber(p[0]), fileNumber(p[1])];

const fileItem = (item: DrawingItem): DrawingItem | undefined => {
  switch (item.kind) {
    case 'loop': {
      const circle = circleOf(item.loop);
      if (circle !== undefined) return fileItem({ kind: 'circle', role: item.role, ...circle });
      const loop = fileLoop(item.loop);
      return loop && { kind: 'loop', role: item.role, loop };
    }
    case 'circle': {
      const radius = fileNumber(notNegative(item.radius));
      const centre = filePoint(item.centre);
      return radius < PROOF_MM / 2
        ? undefined
        : { kind: 'circle', role: item.role, centre, radius };
    }
    case 'line': {
      const from = filePoint(item.from);
      const to = filePoint(item.to);
      if (Math.hypot(to[0] - from[0], to[1] - from[1]) < PROOF_MM) return undefined;
      return { kind: 'line', role: item.role, from, to };
    }
    case 'text':
      return fileText(item);
  }
};

const fileText = (item: DrawingItem & { readonly kind: 'text' }): DrawingItem | undefined => {
  if (isCut(item.role)) throw new Error(`the text '${item.text}' lies on a layer that is cut`);
  const text = singleLine(item.text);
  const heightMm = fileNumber(notNegative(item.heightMm));
  const at = filePoint(item.at);
  const angleDeg = fileAngle(item.angleDeg);
  return text === '' || heightMm < PROOF_MM
    ? undefined
    : { kind: 'text', role: item.role, at, heightMm, angleDeg, text };
};

const notNegative = (value: number): number => {
  if (value < 0)
    throw new RangeError(`a radius or height of ${value} cannot be written to a drawing file`);
  return value;
};

/**
 * A key that is the same for two items which cover the same line, whichever way and from whichever
 * end they are drawn.
 */
const placeOf = (item: DrawingItem): string => {
  switch (item.kind) {
    case 'loop':
      return item.loop
        .map((v, i) => pieceKey(v, nextOf(item.loop, i)))
        .sort()
        .join(';');
    case 'circle':
      return `circle ${item.centre[0]},${item.centre[1]},${item.radius}`;
    case 'line':
      return pieceKey(
        { x: item.from[0], y: item.from[1], bulge: 0 },
        { x: item.to[0], y: item.to[1], bulge: 0 },
      );
    case 'text':
      return `text ${item.at[0]},${item.at[1]},${item.angleDeg},${item.heightMm},${item.text}`;
  }
};

const nextOf = (loop: Loop, i: number): Vertex => loop[i + 1] ?? (loop[0] as Vertex);

const pieceKey = (a: Vertex, b: Vertex): string =>
  a.x < b.x || (a.x === b.x && a.y < b.y)
    ? `${a.x},${a.y},${b.x},${b.y},${a.bulge}`
    : `${b.x},${b.y},${a.x},${a.y},${0 - a.bulge}`;
