import type { FlatPattern } from '../../src/model/flat.ts';
import type { Part } from '../../src/model/part.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import { make } from './check-template.ts';

/** A part that can be made, with its flat pattern. */
export interface Whole {
  readonly part: Part;
  readonly flat: FlatPattern;
  readonly result: MadePart['result'];
}

/** The parts of a description panel by panel, or a failed test with what stops one. */
export const makeWhole = async (inputs: Record<string, unknown>): Promise<readonly Whole[]> =>
  (await make('panels', inputs)).map(({ part, flat, result }) => {
    if (part === undefined || flat === undefined)
      throw new Error(JSON.stringify(result.findings.filter((f) => f.severity === 'stop')));
    return { part, flat, result };
  });
