import { signal } from '@preact/signals';
import type { ShopAnswer, ShopChange } from '../core/shop-questions.ts';
import { quick } from './cores.ts';
import { shopFile, shopText } from './state.ts';

/** The shop as it is read; the built-in one where there is no file. */
export const shop = signal<ShopAnswer | undefined>(undefined);

export const askShop = async (): Promise<void> => {
  const answer = await quick.ask('shop', shopText.value);
  if (answer !== undefined) shop.value = answer;
};

/**
 * Changes something of the shop, in words; why it cannot be, where it cannot. Changes of one thing with
 * the same `of` are one step of undo.
 */
export const changeShop = async (
  change: ShopChange,
  words: string,
  of?: string,
): Promise<string | undefined> => {
  const before = shopText.value;
  const done = await quick.ask('shopChanged', { shop: before, change });
  if (done === undefined) return undefined;
  if (!done.ok) return done.why;
  // What was typed meanwhile is not to be lost: the change is made of the text that there is now.
  if (shopText.value !== before) return changeShop(change, words, of);
  shopFile.change(done.text, words, of);
  return undefined;
};
