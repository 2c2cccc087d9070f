import { effect, signal } from '@preact/signals';
import { draftsOf } from './drafts.ts';
import { begin, change, fileName, jobText, shopText } from './state.ts';
import { findStore, type Store } from './store.ts';

/** How what is typed gets to where it is kept, and what becomes of it where it does not. */

export const store: Store = findStore();

export type SaveState = 'saved' | 'saving' | 'changed outside' | { readonly refused: string };
export const saving = signal<SaveState>('saved');

/** What the file says after somebody else changed it, and what both texts were made from. */
export const conflict = signal<{ readonly theirs: string; readonly base: string } | undefined>(
  undefined,
);

let stamp = '';
let keptText = '';
let drafts = draftsOf('');

/** Milliseconds of rest before the job is saved, and before it is tried again where that failed. */
const SAVE_REST = 700;
const RETRY_REST = 4000;

let timer: ReturnType<typeof setTimeout> | undefined;
const saveAfter = (ms: number): void => {
  clearTimeout(timer);
  timer = setTimeout(() => void saveNow(), ms);
};

/** The save that is on its way: two at a time would be a change outside to each other. */
let onItsWay: Promise<void> | undefined;

export const saveNow = async (): Promise<void> => {
  await onItsWay;
  const text = jobText.value;
  if (text === keptText || conflict.value !== undefined) return;
  saving.value = 'saving';
  onItsWay = save(text);
  await onItsWay;
  onItsWay = undefined;
};

const save = async (text: string): Promise<void> => {
  const saved = await store.saveJob(text, stamp);
  if (saved.how === 'saved') {
    kept(text, saved.stamp);
    if (jobText.value !== text) saveAfter(0);
  } else if (saved.how === 'changed') {
    stamp = saved.stamp;
    conflict.value = { theirs: saved.theirs, base: keptText };
    saving.value = 'changed outside';
  } else {
    saving.value = { refused: saved.why };
    saveAfter(RETRY_REST);
  }
};

const kept = (text: string, newStamp: string): void => {
  [stamp, keptText] = [newStamp, text];
  saving.value = 'saved';
  if (jobText.value === text) drafts.forget();
};

/** Goes on with some text after the file was changed outside. */
export const settle = (text: string, words: string): void => {
  keptText = conflict.value?.theirs ?? keptText;
  conflict.value = undefined;
  saving.value = 'saved';
  change(text, words);
  saveAfter(0);
};

/** Opens what is kept, with what was typed last and got nowhere. */
const open = async (): Promise<void> => {
  try {
    const opened = await store.open();
    [stamp, keptText] = [opened.stamp, opened.job];
    fileName.value = opened.name;
    shopText.value = opened.shop;
    drafts = draftsOf(store.hasServer ? opened.name : 'own');
    begin(opened.job);
    takeUp();
  } catch (error) {
    saving.value = { refused: error instanceof Error ? error.message : String(error) };
  }
};

const takeUp = (): void => {
  const draft = drafts.left();
  if (draft === undefined || draft.text === keptText) return;
  change(draft.text, 'what was typed last');
  if (draft.base === keptText) return;
  conflict.value = { theirs: keptText, base: draft.base };
  saving.value = 'changed outside';
};

/** Looks whether somebody else changed the file while nobody looked at this page. */
const lookAgain = async (): Promise<void> => {
  if (conflict.value !== undefined) return;
  if (jobText.value !== keptText) {
    await saveNow();
    return;
  }
  const opened = await store.open().catch(() => undefined);
  if (opened === undefined || opened.stamp === stamp || jobText.value !== keptText) return;
  [stamp, keptText] = [opened.stamp, opened.job];
  change(opened.job, 'changed elsewhere');
};

/** Opens the job and keeps every change of it from then on. */
export const startSaving = async (): Promise<void> => {
  await open();
  effect(() => {
    const text = jobText.value;
    if (text === keptText) return;
    drafts.keep({ base: conflict.peek()?.base ?? keptText, text });
    saveAfter(SAVE_REST);
  });
  // A page that is put away may not come back.
  addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') void saveNow();
    else void lookAgain();
  });
  addEventListener('focus', () => void lookAgain());
  addEventListener('online', () => void saveNow());
};
