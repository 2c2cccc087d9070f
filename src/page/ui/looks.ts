import { effect } from '@preact/signals';
import { keptChoice } from './kept-choice.ts';

/** Looks of the page, with the words by which they are chosen. */
export const LOOKS = [
  ['auto', 'as the device'],
  ['light', 'light'],
  ['dark', 'dark'],
  ['yard', 'bright yard'],
] as const;

export type Look = (typeof LOOKS)[number][0];

export const look = keptChoice<Look>(
  'look',
  LOOKS.map(([each]) => each),
);

effect(() => {
  document.documentElement.dataset['look'] = look.value;
});
