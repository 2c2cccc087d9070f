import { type Motion2, moveLoop, movePoint, turnedBy } from '../geometry/motion2.ts';
import { NOISE_DEG } from '../geometry/tolerance.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import type { Drawing, DrawingItem, Role } from '../model/drawing.ts';
import { textBox } from '../model/drawing-extents.ts';
import type { LaidPart } from '../model/laid.ts';
import { mirrorLoop } from '../model/mirror.ts';

/**
 * The items of a part's drawing where the part lies on a sheet. Turned over it shows its other face:
 * what came towards whoever looks goes away, so fold lines change their layers and notes their
 * words. Loops stay counter-clockwise; texts are never mirrored, and read from below or from the
 * right.
 */
export const laidItems = (
  { items }: Drawing,
  { turnedOver, turnDeg, xMm, yMm }: Omit<LaidPart, 'name' | 'copy'>,
): DrawingItem[] => {
  const motion = turnedBy(turnDeg, xMm, yMm);
  const seen = turnedOver ? items.map(otherFace) : items;
  return seen.map((item) => moved(item, motion, turnDeg));
};

const OTHER_ROLE: Partial<Record<Role, Role>> = {
  'fold-up': 'fold-down',
  'fold-down': 'fold-up',
};

/** The item in a drawing that was turned over about the y axis. */
const otherFace = (item: DrawingItem): DrawingItem => {
  const role = OTHER_ROLE[item.role] ?? item.role;
  switch (item.kind) {
    case 'loop':
      return { ...item, role, loop: mirrorLoop(item.loop) };
    case 'circle':
      return { ...item, role, centre: overY(item.centre) };
    case 'line':
      return { ...item, role, from: overY(item.from), to: overY(item.to) };
    case 'text':
      return textTurnedOver(item);
  }
};

/** Zero stays a positive zero. */
const overY = ([x, y]: Vec2): Vec2 => [0 - x, y];

type Text = Extract<DrawingItem, { readonly kind: 'text' }>;

/** The text in the box that it took up, from the end that has become its beginning. */
const textTurnedOver = (item: Text): Text => {
  const { turnedOver = item.text, text, ...rest } = item;
  const said: Text = { ...rest, text: turnedOver, turnedOver: text };
  return { ...said, at: overY(endOf(said)), angleDeg: 0 - item.angleDeg };
};

/** The far end of the base line of a text, as wide as it may become. */
const endOf = ({ at, angleDeg, heightMm, text }: Text): Vec2 => {
  const { maxX } = textBox(text, heightMm);
  return movePoint(turnedBy(angleDeg, ...at), [maxX, 0]);
};

const moved = (item: DrawingItem, motion: Motion2, turnDeg: number): DrawingItem => {
  switch (item.kind) {
    case 'loop':
      return { ...item, loop: moveLoop(motion, item.loop) };
    case 'circle':
      return { ...item, centre: movePoint(motion, item.centre) };
    case 'line':
      return { ...item, from: movePoint(motion, item.from), to: movePoint(motion, item.to) };
    case 'text':
      return readable({
        ...item,
        at: movePoint(motion, item.at),
        angleDeg: item.angleDeg + turnDeg,
      });
  }
};

/** The least angle at which a text reads from the right; under it, it reads from below. */
const FROM_RIGHT_DEG = 90;

/** A text that stands upside down is turned round within its own box. */
const readable = (item: Text): Text => {
  const angleDeg = ((item.angleDeg % 360) + 360) % 360;
  if (angleDeg <= FROM_RIGHT_DEG + NOISE_DEG || angleDeg > 270 + NOISE_DEG)
    return { ...item, angleDeg: angleDeg > 180 ? angleDeg - 360 : angleDeg };
  const { maxX } = textBox(item.text, item.heightMm);
  const box = turnedBy(angleDeg, ...item.at);
  return { ...item, at: movePoint(box, [maxX, item.heightMm]), angleDeg: angleDeg - 180 };
};
