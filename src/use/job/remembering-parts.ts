import { withResult } from '../made-part.ts';
import { type Made, makeParts } from '../make/make-parts.ts';

/** A function that makes the parts of a job: `makeParts`, or one that does the same. */
export type MakeParts = typeof makeParts;

/**
 * Makes parts as `makeParts` does, and keeps them for the next request with the same inputs, since
 * planning how they are folded takes long. A part whose fit was worked out also serves a request
 * without it.
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
