import { signal } from '@preact/signals';
import type { ShopAnswer, ShopChange } from '../core/shop-questions.ts';
import { store } from './saving.ts';
import { quick, shopText } from './state.ts';

/** The shop as it is read; the built-in one where there is no file. */
export const shop = signal<ShopAnswer | undefined>(undefined);
/** How saving went. */
export const saved = signal('');

export const askShop = async (): Promise<void> => {
  const answer = await quick.ask('shop', shopText.value);
  if (answer !== undefined) shop.value = answer;
};

/** Milliseconds of rest before the shop is saved. */
const REST_MS = 700;
let rest: ReturnType<typeof setTimeout> | undefined;

/** Takes a text as the shop file, and saves it when the hand rests. */
export const putShop = (text: string): void => {
  shopText.value = text;
  saved.value = 'Saving';
  clearTimeout(rest);
  rest = setTimeout(() => {
    void store.saveShop(text).then((done) => {
      saved.value = done.how === 'refused' ? `Not saved: ${done.why}` : 'The shop is saved';
    });
  }, REST_MS);
};

/** Changes something of the shop; why it cannot be, where it cannot. */
export const changeShop = async (change: ShopChange): Promise<string | undefined> => {
  const done = await quick.ask('shopChanged', { shop: shopText.value, change });
  if (done === undefined) return undefined;
  if (!done.ok) return done.why;
  putShop(done.text);
  return undefined;
};
