import { ASKED_OUTPUTS, cutOutputs, type OutputId } from '../../src/use/outputs/index.ts';

/**
 * Names of the files of a part of one blank with a given base name, from the list of outputs, in
 * alphabetical order.
 */
export const fileNames = (base: string, outputs: readonly OutputId[] = []): string[] =>
  [
    ...cutOutputs('r2000'),
    ...ASKED_OUTPUTS.filter(
      ({ id, needs }) => outputs.some((o) => o === id) && !needs.includes('assembly'),
    ),
  ]
    .map(({ extension }) => base + extension)
    .toSorted();
