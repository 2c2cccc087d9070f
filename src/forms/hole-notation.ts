import { PATTERN_ALLOWED } from './hole-pattern.ts';
import { BEHIND_ALLOWED, SIZE_ALLOWED } from './hole-shape.ts';

/** What may stand behind the size of a hole, wherever one is given. */
export const BEHIND_NOTATION = `Behind the size of a hole may stand ${BEHIND_ALLOWED}.`;

/** How holes are written, which is the same in all inputs for holes. */
export const HOLE_NOTATION = [
  "Holes have a ';' or a new line between them.",
  `A size is ${SIZE_ALLOWED}.`,
  BEHIND_NOTATION,
  `${PATTERN_ALLOWED}.`,
];
