import { computed, signal } from '@preact/signals';
import type { Opened } from '../model/kept.ts';
import { type Kept, KeptText, type SaveState } from './kept-text.ts';
import { fileName, jobFile, shopFile } from './state.ts';
import { findStore, type Store } from './store.ts';

/** Where the two files of the page are kept, and how it stands with both. */

export const store: Store = findStore();

const job = new KeptText('job', jobFile, store.saveJob);
const shop = new KeptText('shop', shopFile, store.saveShop);
export const KEPT = [job, shop] as const;

/** Why nothing could be opened. */
const unopened = signal<string | undefined>(undefined);

/** How it stands with the file that has most to be told of, and which one it is. */
export const saving = computed((): { readonly state: SaveState; readonly called: string } => {
  if (unopened.value !== undefined) return { state: { refused: unopened.value }, called: 'job' };
  const worst = KEPT.toSorted((a, b) => weightOf(b.saving.value) - weightOf(a.saving.value))[0];
  return { state: worst?.saving.value ?? 'saved', called: worst?.called ?? '' };
});

const weightOf = (state: SaveState): number =>
  typeof state === 'object' ? 3 : { saved: 0, saving: 1, 'changed outside': 2 }[state];

export const saveNow = async (): Promise<void> => {
  for (const one of KEPT) await one.saveNow();
};

const jobIn = ({ job: text, stamp }: Opened): Kept => ({ text, stamp });
const shopIn = ({ shop: text, shopStamp: stamp }: Opened): Kept => ({ text: text ?? '', stamp });

const open = async (): Promise<void> => {
  try {
    const opened = await store.open();
    fileName.value = opened.name;
    const drafts = store.draftName(opened);
    job.open(jobIn(opened), drafts);
    shop.open(shopIn(opened), `${drafts} shop`);
  } catch (error) {
    unopened.value = error instanceof Error ? error.message : String(error);
  }
};

/** Looks whether somebody else changed a file while nobody looked at this page. */
const lookAgain = async (): Promise<void> => {
  let opened: Promise<Opened | undefined> | undefined;
  const now = () => (opened ??= store.open().catch(() => undefined));
  const seen = (of: (all: Opened) => Kept) => async (): Promise<Kept | undefined> => {
    const all = await now();
    return all && of(all);
  };
  await job.look(seen(jobIn));
  await shop.look(seen(shopIn));
};

/** Opens the job and its shop, and keeps every change of them from then on. */
export const startSaving = async (): Promise<void> => {
  await open();
  for (const one of KEPT) one.start();
  // A page that is put away may not come back.
  addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') void saveNow();
    else void lookAgain();
  });
  addEventListener('focus', () => void lookAgain());
  addEventListener('online', () => void saveNow());
};
