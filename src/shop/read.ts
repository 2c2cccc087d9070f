import type * as z from 'zod';
import { shown } from '../input/given.ts';
import type { InputProblem } from '../input/problem.ts';
import { parseYaml, type ValuePath } from '../input/yaml.ts';
import type { Shop } from '../model/shop.ts';
import { nearest } from '../nearest.ts';
import { ONE_OF, type RefusalParams } from './field.ts';
import { shopSchema } from './schema.ts';

export type ReadShop = { readonly ok: true; readonly shop: Shop } | { readonly ok: false; readonly problems: readonly InputProblem[] };

const ALLOWED = 'a YAML or JSON file of a shop: name, folders, pressBrakes, cutters, sheets, marking, weldGap';
const LOOK = 'blankwright shop prints one to begin with';

/**
 * Reads the text of a shop file. Every problem is told at once, each under the path of its value
 * (`cutters[0].kerf[2].thickness`), with what was given and on which line. Never throws for any text.
 */
export function readShop(text: string): ReadShop {
  const yaml = parseYaml(text);
  if (!yaml.ok) return { ok: false, problems: [{ input: 'shop', given: yaml.given, allowed: ALLOWED, mend: yaml.mend ?? LOOK }] };
  const { value, placeOf } = yaml;
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    const given = value === null ? 'nothing' : Array.isArray(value) ? 'a list' : 'a single value';
    return { ok: false, problems: [{ input: 'shop', given, allowed: ALLOWED, mend: LOOK }] };
  }
  const read = shopSchema.safeParse(value);
  if (read.success) return { ok: true, shop: { ...read.data, isAssumed: false } };
  const problems = read.error.issues.flatMap((issue) => problemsFrom(issue, value, placeOf));
  // A name that is misspelt is missing too, but that is one mistake.
  const misspelt = new Set(problems.flatMap(({ meant }) => meant ?? []));
  return { ok: false, problems: problems.filter(({ problem, isMissing }) => !(isMissing === true && misspelt.has(problem.input))).map(({ problem }) => problem) };
}

interface Told {
  readonly problem: InputProblem;
  readonly isMissing?: boolean;
  /** The path that an unknown name was most likely meant for. */
  readonly meant?: string;
}

type PlaceOf = (path: ValuePath, what: 'value' | 'name') => string;

function problemsFrom(issue: z.core.$ZodIssue, whole: unknown, placeOf: PlaceOf): Told[] {
  const path = issue.path.map((step) => (typeof step === 'symbol' ? String(step) : step));
  if (issue.code === 'unrecognized_keys') return issue.keys.map((key) => unknownName([...path, key], issue.message, whole, placeOf));
  const value = valueAt(whole, path);
  const mend = issue.code === 'custom' ? (issue.params as RefusalParams | undefined)?.mend : value === undefined ? `add ${String(path.at(-1))}` : undefined;
  const given = value === undefined ? `nothing in what begins at ${placeOf(path, 'value')}` : `${shown(value)} at ${placeOf(path, 'value')}`;
  return [{ problem: { input: written(path), given, allowed: issue.message, ...(mend !== undefined && { mend }) }, isMissing: value === undefined }];
}

function unknownName(path: ValuePath, message: string, whole: unknown, placeOf: PlaceOf): Told {
  const meant = nearest(String(path.at(-1)), message.slice(ONE_OF.length).split(', '));
  const problem = {
    input: written(path),
    given: `${shown(valueAt(whole, path))} under a name that is not known, at ${placeOf(path, 'name')}`,
    allowed: message,
    mend: meant === undefined ? 'leave it out' : `did you mean ${meant}?`,
  };
  return meant === undefined ? { problem } : { problem, meant: written([...path.slice(0, -1), meant]) };
}

const valueAt = (whole: unknown, path: ValuePath): unknown =>
  path.reduce<unknown>((value, step) => (typeof value === 'object' && value !== null && Object.hasOwn(value, step) ? (value as Record<string | number, unknown>)[step] : undefined), whole);

/** `cutters[0].kerf[2].thickness`. */
const written = (path: ValuePath): string =>
  path.map((step, i) => (typeof step === 'number' ? `[${step}]` : `${i === 0 ? '' : '.'}${shown(step).replace(/^'|'$/g, '')}`)).join('') || 'shop';
