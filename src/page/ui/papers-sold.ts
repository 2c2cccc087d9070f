import { effect, signal } from '@preact/signals';
import type { SheetName } from '../../model/paper.ts';

/** Papers that a printer at home holds, in words. */
export const PAPERS_SOLD: Readonly<Record<SheetName, string>> = {
  a4: 'A4',
  a3: 'A3',
  letter: 'Letter',
};

const KEY = 'blankwright.paper';

const isSold = (name: string | null): name is SheetName => name !== null && name in PAPERS_SOLD;

const kept = (): SheetName => {
  try {
    const found = localStorage.getItem(KEY);
    return isSold(found) ? found : 'a4';
  } catch {
    return 'a4';
  }
};

/** The paper that is in the printer, kept for the next visit. */
export const paper = signal<SheetName>(kept());

effect(() => {
  try {
    localStorage.setItem(KEY, paper.value);
  } catch {
    // It is chosen again on the next visit.
  }
});
