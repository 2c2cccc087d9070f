import { PATTERN_ALLOWED } from './hole-pattern.ts';
import { BEHIND_ALLOWED, SIZE_ALLOWED } from './hole-shape.ts';

/** How holes are written, which is the same in all inputs for holes. */
export const HOLE_NOTATION = `Holes have a ';' or a new line between them. A size is ${SIZE_ALLOWED}. Behind it may stand ${BEHIND_ALLOWED}. ${PATTERN_ALLOWED}.`;
