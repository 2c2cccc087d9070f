/**
 * How a shop hands its cut files over to a cutting service. The names are those of the shop file.
 */
export interface Handover {
  /** Pattern of the names of the cut files, without extension. */
  readonly names: string;
  /** One archive for each material and thickness, or one for all. */
  readonly perSheet: boolean;
  /** Class of the general tolerances of ISO 2768-1 that the service is asked to keep. */
  readonly tolerance: 'f' | 'm' | 'c' | 'v';
  /** The face of the finished part that must not be scratched. */
  readonly protect: 'inside' | 'outside' | 'none';
}

/** The words that a pattern may hold in braces. */
export const NAME_WORDS = [
  'name',
  'hand',
  'material',
  'thickness',
  'quantity',
  'revision',
  'family',
] as const;

export type NameWord = (typeof NAME_WORDS)[number];

export const DEFAULT_HANDOVER: Handover = {
  names: '{name}_{hand}_{material}_{thickness}_x{quantity}',
  perSheet: true,
  tolerance: 'm',
  protect: 'none',
};

/** Characters and words that a pattern may hold, worded to complete "allowed: ...". */
export const PATTERN_ALLOWED = `letters, digits, ".", "-" and "_", with ${NAME_WORDS.map((w) => `{${w}}`).join(', ')}, and {name} among them`;

/** What is wrong with a pattern and how to mend it; `undefined` for a good one. */
export const patternMend = (pattern: string): string | undefined => {
  const words = [...pattern.matchAll(/\{([^{}]*)\}/g)].map(([, word]) => word as string);
  const unknown = words.find((word) => !isNameWord(word));
  if (unknown !== undefined) return `there is no {${unknown}}`;
  const rest = pattern.replace(/\{[^{}]*\}/g, '');
  if (/[^A-Za-z0-9._-]/.test(rest))
    return `leave out ${JSON.stringify(/[^A-Za-z0-9._-]/u.exec(rest)?.[0])}`;
  return words.includes('name') ? undefined : 'without {name} one part cannot be told from another';
};

export const isNameWord = (word: string): word is NameWord =>
  (NAME_WORDS as readonly string[]).includes(word);
