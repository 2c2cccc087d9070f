import { Core } from './ask.ts';

const codeOfCore = (): string => document.querySelector('#core')?.textContent ?? '';

/** Answers at once: shapes, checks, proof. */
export const quick = new Core(codeOfCore());
/** Works at what takes longer: orders of folds, papers, whole jobs. */
export const slow = new Core(codeOfCore());
