import { effect, signal } from '@preact/signals';

/** Looks of the page, with the words by which they are chosen. */
export const LOOKS = [
  ['auto', 'as the device'],
  ['light', 'light'],
  ['dark', 'dark'],
  ['yard', 'bright yard'],
] as const;

export type Look = (typeof LOOKS)[number][0];

const KEY = 'blankwright.look';

const kept = (): Look => {
  try {
    const found = localStorage.getItem(KEY);
    return LOOKS.find(([look]) => look === found)?.[0] ?? 'auto';
  } catch {
    return 'auto';
  }
};

export const look = signal<Look>(kept());

effect(() => {
  document.documentElement.dataset['look'] = look.value;
  try {
    localStorage.setItem(KEY, look.value);
  } catch {
    // It is chosen again on the next visit.
  }
});
