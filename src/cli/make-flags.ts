import type { MakeOptions } from '../use/make/make-parts.ts';
import { parseLength } from '../text/units.ts';
import { WrongInput } from './failure.ts';
import { type Flags, type FlagSpecs, textOf } from './flags.ts';

/** Flags that say how a part is made: of `make`. */
export const WAY_FLAGS = {
  'cut-only': { type: 'boolean', describe: 'Only what is cut: no fold lines, no notes' },
  'dxf-version': { type: 'string', describe: 'r2000, or r12 for old controllers' },
  'fold-at': {
    type: 'string',
    describe:
      'here: a part that the shop cannot fold is stopped; service: it is folded elsewhere; auto, when left out: here where it can be',
  },
  kerf: {
    type: 'string',
    describe:
      "Cut lines half a kerf beside the metal, for tables that do not allow for it: a width, or shop for that of the shop's cutter",
  },
  drilled: {
    type: 'string',
    describe:
      'How the middles of holes to be drilled come onto the metal: crosses that are marked, or pierces; as the shop file has it when left out',
  },
  marks: {
    type: 'string',
    describe:
      'How fold lines come onto the metal: lines, nicks in the edge at their ends, or none; as the shop file has it when left out',
  },
} as const satisfies FlagSpecs;

/**
 * How a part is to be made, out of its flags. Throws `WrongInput` for one that says something else.
 */
export const wayOf = (flags: Flags): Omit<MakeOptions, 'shop'> => {
  const dxfVersion = choiceOf(flags, 'dxf-version', ['r2000', 'r12']) ?? 'r2000';
  const foldAt = choiceOf(flags, 'fold-at', ['here', 'service', 'auto']);
  const marks = choiceOf(flags, 'marks', ['lines', 'nicks', 'none']);
  const drilled = choiceOf(flags, 'drilled', ['crosses', 'pierces']);
  return {
    cutOnly: flags['cut-only'] === true,
    dxfVersion,
    kerf: kerfOf(textOf(flags, 'kerf')),
    ...(foldAt !== undefined && { foldAt }),
    ...(marks !== undefined && { marks }),
    ...(drilled !== undefined && { drilled }),
  };
};

/** A flag that is one of some words. Throws `WrongInput` for any other. */
export const choiceOf = <T extends string>(
  flags: Flags,
  name: string,
  choices: readonly T[],
): T | undefined => {
  const text = textOf(flags, name);
  const choice = choices.find((c) => c === text?.toLowerCase());
  if (text === undefined || choice !== undefined) return choice;
  throw new WrongInput([
    {
      input: name,
      given: `'${text}'`,
      allowed: `${choices.slice(0, -1).join(', ')} or ${choices.at(-1)}`,
    },
  ]);
};

/** Wider than any cut. */
const WIDEST_KERF_MM = 10;

const kerfOf = (text: string | undefined): number | 'shop' => {
  if (text === undefined) return 0;
  if (text.toLowerCase() === 'shop') return 'shop';
  const width = parseLength(text);
  if (width.ok && width.value >= 0 && width.value <= WIDEST_KERF_MM) return width.value;
  throw new WrongInput([
    {
      input: 'kerf',
      given: `'${text}'`,
      allowed: `a width from 0 to ${WIDEST_KERF_MM} mm, or shop`,
      ...(width.ok ? {} : { mend: width.reason }),
    },
  ]);
};
