import { ruleText } from '../../bending/rule.ts';
import type { Hand, PartResult } from '../../contract/part.ts';
import { safeName } from '../../text/safe-name.ts';
import type { MadePart } from '../made-part.ts';
import type { Context, UnplannedBlank } from './context.ts';

/**
 * What is known of a part before it is made: the head of its result, and the names of its files.
 */
export interface PartHead extends Pick<MadePart, 'base' | 'mark' | 'set'> {
  readonly top: Top;
}

type Top = Omit<
  PartResult,
  'blank' | 'bends' | 'folded' | 'foldPlan' | 'proof' | 'fit' | 'findings'
>;

/** What a part has that did not get as far as a blank, or is not cut of sheet. */
export const NO_BLANK = {
  blank: null,
  bends: [],
  folded: null,
  foldPlan: null,
  proof: null,
  fit: null,
} as const satisfies Partial<PartResult>;

export function headOf(
  { family, values }: Context,
  hand: Hand,
  { id, quantity = 1 }: Pick<UnplannedBlank, 'id' | 'quantity'>,
): PartHead {
  const suffix = suffixOf(values.hand === 'both', hand, id);
  const name = values.name + suffix;
  const top: Top = {
    name,
    family,
    piece: id,
    hand,
    quantity: quantity * values.quantity,
    material: {
      id: values.material.id,
      thicknessMm: values.thicknessMm,
      densityKgM3: values.material.densityKgM3.value,
    },
    rule: ruleText(values.rule),
  };
  // The name is made safe before the suffix is added, so that both hands of a part have the same
  // name.
  const named = { top, base: safeName(values.name) + suffix, mark: markOf(top) };
  if (id === null) return named;
  const whole = suffixOf(values.hand === 'both', hand, null);
  const set = {
    name: values.name + whole,
    base: safeName(values.name) + whole,
    mark: markOf({ ...top, name: values.name + whole }),
  };
  return { ...named, set };
}

/** Ending of the name that tells one blank of a set of inputs from another: `-wrap-L`. */
const suffixOf = (hasBothHands: boolean, hand: Hand, id: string | null): string => {
  const piece = id === null ? '' : `-${id}`;
  return hasBothHands ? `${piece}-${hand === 'left' ? 'L' : 'R'}` : piece;
};

/**
 * Mark by which a part's files are recognised: it is written into each, and looked for before one
 * is replaced. It is ASCII without spaces.
 */
const markOf = ({ family, name, hand }: Top): string =>
  `blankwright ${safeName(family)} ${encodeURIComponent(name.replace(/\p{Cs}/gu, '?'))} ${hand}`;
