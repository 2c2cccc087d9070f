import { withResult } from '../made-part.ts';
import { type Made, makeParts } from '../make/make-parts.ts';

/** What makes the parts of a job: `makeParts`, or something that does the same. */
export type MakeParts = typeof makeParts;

/**
 * Makes parts as `makeParts` does, and keeps them for whoever asks for the same again: to plan how
 * they are folded takes long. A part that was made with how well it fits is also the one without.
 */
export const rememberingParts = (): MakeParts => {
  const known = new Map<string, Made>();
  return (template, raw, options) => {
    const { fit, ...way } = options ?? {};
    const plain = JSON.stringify([template.family, raw, way]);
    const key = fit === undefined ? plain : JSON.stringify([plain, fit]);
    const made = known.get(key) ?? makeParts(template, raw, options);
    known.set(key, made);
    if (fit !== undefined) known.set(plain, withoutFit(made));
    return made;
  };
};

const withoutFit = (made: Made): Made =>
  made.ok ? { ...made, parts: made.parts.map((part) => withResult(part, { fit: null })) } : made;
