import { wordOf } from '../model/word-of.ts';
import { type Typed, withEntry, withLines } from '../model/job-text.ts';
import { change, jobText, partsOf } from './state.ts';

/** Inputs that a job file has beside a part's others. */
const BESIDE: ReadonlySet<string> = new Set(['name', 'hand', 'quantity']);

/** Where an input of a part stands in the job file, by the name that is written there. */
export const entryOf = (index: number, name: string): readonly (string | number)[] => {
  if (BESIDE.has(name)) return ['parts', index, name];
  const inputs = partsOf()[index]?.inputs ?? {};
  const kebab = name.replace(/[A-Z]/g, (c) => `-${c.toLowerCase()}`);
  return ['parts', index, 'inputs', Object.hasOwn(inputs, kebab) ? kebab : name];
};

/** What is written of an input, as a value. */
export const valueAt = (index: number, name: string): unknown => {
  const [, , ...path] = entryOf(index, name);
  let value: unknown = partsOf()[index];
  for (const step of path)
    value = (value as Record<string, unknown> | null | undefined)?.[String(step)];
  return value;
};

export const writtenAt = (index: number, name: string): string => {
  const value = valueAt(index, name);
  if (value === undefined || value === null) return '';
  return typeof value === 'object' ? JSON.stringify(value) : wordOf(value);
};

const toldOf = (text: string): string => (text === '' ? 'left out' : text);

/** Writes an input into the job. Changes with the same `of` are one step of undo. */
export const setInput = (
  index: number,
  name: string,
  value: Typed,
  of?: string,
  from?: string,
): void => {
  const before = from ?? writtenAt(index, name);
  const words = `${name} ${toldOf(before)} -> ${toldOf(String(value ?? ''))}`;
  change(
    withEntry(jobText.value, entryOf(index, name), value === '' ? undefined : value),
    words,
    of,
  );
};

/** Writes an input that is a list of lines. */
export const setLines = (
  index: number,
  name: string,
  lines: readonly string[],
  of: string,
): void => {
  const text = withLines(jobText.value, entryOf(index, name), lines);
  change(text, `${name}: ${lines.length}`, of);
};

/** Counts the visits of fields: what is typed in one visit is one step of undo. */
let visits = 0;
export const newVisit = (index: number, name: string): string => `${index}.${name}.${++visits}`;
