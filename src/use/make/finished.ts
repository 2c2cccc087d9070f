import type { Template } from '../../forms/template.ts';
import { boltsApart } from './bolts-apart.ts';
import { madeByMachine } from './by-machine.ts';
import { madeFoldable } from './made-foldable.ts';
import type { Made } from './make-given.ts';
import type { FilledOptions } from './make-options.ts';

/**
 * Parts that were made as they were asked for, with what is left to the program decided by the shop's
 * machines, and in another design where that is asked for.
 */
export const finished = (
  template: Template,
  raw: Readonly<Record<string, unknown>>,
  options: FilledOptions,
  made: Made,
): Made => {
  const by = madeByMachine(template, raw, options, made);
  return boltsApart(
    options.makeFoldable ? madeFoldable(template, by.raw, options, by.made) : by.made,
  );
};
