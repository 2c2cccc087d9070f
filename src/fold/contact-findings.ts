import { atLeast, figure } from '../figures.ts';
import { type Finding, stop, warn } from '../model/finding.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { Part } from '../model/part.ts';
import { type Contact, contactsOf } from './contact.ts';

/** The finished part must not be where it is already. An edge that only grazes a bend can be dressed, and warns. */
export const contactFindings = (part: Part, flat: FlatPattern): Finding[] =>
  contactsOf(part, flat).map((contact) => (grazesBend(contact, part.thicknessMm) ? grazing(contact) : blocking(contact, part.root)));

const grazesBend = ({ between, depthMm }: Contact, thicknessMm: number): boolean => between.some((name) => name.startsWith('fold ')) && depthMm < thicknessMm;

const grazing = ({ between: [a, b], depthMm }: Contact): Finding =>
  warn('grazes-bend', `Folded, ${a} grazes ${b} by ${figure(depthMm)} mm: file the edge, take a smaller radius, or a cornerGap that is wider by as much.`);

const blocking = ({ between: [a, b], depthMm, at }: Contact, root: string): Finding =>
  stop('runs-into-itself', `Folded, ${a} runs into ${b} near ${at.map((v) => Math.round(v)).join(', ')} of the ${root}'s own coordinates: make one of them ${atLeast(depthMm)} mm shorter or narrower, or turn it the other way.`);
