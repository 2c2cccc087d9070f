import { ASKED_OUTPUTS, cutOutputs, type OutputId } from '../../src/use/outputs/index.ts';

/** The files of a part that is called so in them, by the list of outputs, in alphabetical order. */
export const fileNames = (base: string, outputs: readonly OutputId[] = []): string[] =>
  [...cutOutputs('r2000'), ...ASKED_OUTPUTS.filter(({ id }) => outputs.some((o) => o === id))]
    .map(({ extension }) => base + extension)
    .toSorted();
