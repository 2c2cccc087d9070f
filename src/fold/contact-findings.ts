import { atLeast } from '../figures.ts';
import { type Finding, stop } from '../model/finding.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { Part } from '../model/part.ts';
import { contactsOf } from './contact.ts';

/** The finished part must not be where it is already. */
export const contactFindings = (part: Part, flat: FlatPattern): Finding[] =>
  contactsOf(part, flat).map(({ between: [a, b], depthMm, at }) =>
    stop('runs-into-itself', `Folded, ${a} runs into ${b} near ${at.map((v) => Math.round(v)).join(', ')} of the ${part.root}'s own coordinates: make one of them ${atLeast(depthMm)} mm shorter or narrower, or turn it the other way.`),
  );
