import type { Template } from '../../src/forms/template.ts';
import { type Made, type MakeOptions, makeParts } from '../../src/use/make/make-parts.ts';

/**
 * What `makeParts` makes, made once in a process: many tests begin with the same examples. It is
 * frozen, so that no test spoils it for another.
 */
export const madeOnce = (
  template: Template,
  inputs: Readonly<Record<string, unknown>>,
  options: MakeOptions,
): Made => {
  const ofTemplate = known.get(template) ?? new Map<string, Made>();
  known.set(template, ofTemplate);
  const key = keyOf(inputs, options);
  const made = ofTemplate.get(key) ?? frozen(makeParts(template, inputs, options));
  ofTemplate.set(key, made);
  return made;
};

const known = new WeakMap<Template, Map<string, Made>>();

/** Shops hold functions, and are told apart by which they are. */
const keyOf = (inputs: Readonly<Record<string, unknown>>, { shop, ...options }: MakeOptions) =>
  JSON.stringify([inputs, options, shop === undefined ? null : numberOf(shop)]);

const numbers = new WeakMap<object, number>();
let count = 0;
const numberOf = (thing: object): number => {
  const number = numbers.get(thing) ?? (count += 1);
  numbers.set(thing, number);
  return number;
};

const frozen = <T>(value: T): T => {
  if (typeof value !== 'object' || value === null || Object.isFrozen(value)) return value;
  if (ArrayBuffer.isView(value)) return value;
  Object.freeze(value);
  for (const inner of Object.values(value)) frozen(inner);
  return value;
};
