import { askShop } from '../../src/cli/ask-shop.ts';
import type { Folder } from '../../src/model/machine.ts';
import type { Shop } from '../../src/model/shop.ts';
import { readShop } from '../../src/shop/read.ts';

/** Answers in turn; an `undefined` among them is the end of them. */
export const answering = (lines: readonly string[]) => {
  const left = [...lines];
  const said: string[] = [];
  return {
    said,
    dialogue: {
      say: (text: string) => void said.push(text),
      next: () => Promise.resolve(left.shift()),
    },
    left,
  };
};

export const shopOf = (text: string | undefined): Shop => {
  const read = readShop(text ?? '');
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.shop;
};

export const ask = async (lines: readonly string[], text?: string) => {
  const { said, dialogue, left } = answering(lines);
  const known = text === undefined ? undefined : { text, shop: shopOf(text) };
  const written = await askShop({ path: 'shop.yaml', known }, dialogue);
  return { written, said: said.join(''), left };
};

/** All there is to answer about a finger folder: its name, plate, hardest fold, nose, tests, rest. */
export const FINGERS = [
  'fingers',
  'bench',
  '1000',
  '1.5',
  '2',
  'dc01',
  '600',
  '0.5, 2',
  '1.8',
  '92',
  '90',
  'dc01 1.5',
  '',
  '55',
  '25 x4, 50x2, 100',
  '82',
  'yes',
];
/** No other machine, cutters and sheets as they are. */
export const NO_MORE = ['', '', ''];

export const folderIn = (text: string | undefined, at = 0): Folder => {
  const machine = shopOf(text).machines[at];
  if (machine?.kind !== 'folder') throw new Error('no folder');
  return machine;
};
