import type { InputProblem } from '../forms/problem.ts';
import { readDocument } from '../forms/read-document.ts';
import type { Shop } from '../model/shop.ts';
import { shopSchema } from './schema.ts';

export type ReadShop =
  | { readonly ok: true; readonly shop: Shop }
  | { readonly ok: false; readonly problems: readonly InputProblem[] };

const WORDS = {
  input: 'shop',
  allowed:
    'a YAML or JSON file of a shop: name, folders, pressBrakes, cutters, sheets, remnants, marking, handover, weldGap, bends, benders, tubeStock, rolls',
  look: 'blankwright shop prints one to begin with',
};

/** Reads the text of a shop file in the way `readDocument` reads any file. */
export function readShop(text: string): ReadShop {
  const read = readDocument(text, shopSchema, WORDS);
  return read.ok ? { ok: true, shop: { ...read.value, isAssumed: false } } : read;
}
