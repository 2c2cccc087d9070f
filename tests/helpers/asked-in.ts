import type { Asked } from '../../src/contract/asked.ts';
import { readPart } from '../../src/proof/read-part.ts';
import type { PartResult } from '../../src/contract/part.ts';

/** What a file of a part is measured against, taken from the output of `make --json`. */
export const askedIn = (result: PartResult): Asked => {
  const read = readPart(JSON.parse(JSON.stringify(result)), '');
  if (!read.ok) throw new Error(read.given);
  return read.asked;
};
