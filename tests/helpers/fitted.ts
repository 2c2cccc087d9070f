import type { FitMeasure, FitResult } from '../../src/contract/fit.ts';
import type { WholePart } from '../../src/use/made-part.ts';
import type { MakeOptions } from '../../src/use/make/make-parts.ts';
import type { FitOptions } from '../../src/use/fit/part-fit.ts';
import { loadFamily } from './check-template.ts';
import { madeOnce } from './made-once.ts';
import { UNPLANNED } from './unplanned.ts';

export interface Fitted extends Pick<WholePart, 'part' | 'flat'> {
  readonly made: WholePart;
  readonly fit: FitResult;
}

/**
 * The first part of these inputs with its likely fit. It is folded on press brakes elsewhere, so
 * that nothing is planned.
 */
export const fitted = async (
  family: string,
  inputs: Record<string, unknown>,
  how: FitOptions = {},
  options: Partial<MakeOptions> = {},
): Promise<Fitted> => {
  const made = madeOnce(await loadFamily(family), inputs, { ...UNPLANNED, ...options, fit: how });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  const [first] = made.parts;
  if (first === undefined || first.stopped || first.result.fit === null)
    throw new Error(JSON.stringify(first?.result.findings));
  return { made: first, part: first.part, flat: first.flat, fit: first.result.fit };
};

export const measureOf = ({ measures }: FitResult, name: string): FitMeasure => {
  const found = measures.find((m) => m.name === name);
  if (found === undefined)
    throw new Error(`no ${name} among ${measures.map((m) => m.name).join('; ')}`);
  return found;
};
