import { figure } from '../text/figures.ts';
import { composed, type Finding } from '../model/finding.ts';
import { just, type Mend } from '../model/mend.ts';
import { parseLength, type TypedUnit, typedUnit } from '../text/units.ts';
import { describeInputs, type InputDescription } from './read.ts';
import type { Template } from './template.ts';

/**
 * Findings in the units of whoever typed the inputs: a length that was typed in inches is told in
 * inches, and no mend asks for more or less than its input may be. `raw` is what was given, by
 * names in camelCase or kebab-case.
 */
export function asTyped(
  findings: readonly Finding[],
  template: Template,
  raw: Readonly<Record<string, unknown>>,
): Finding[] {
  if (findings.every(({ said }) => said === undefined)) return [...findings];
  const inputs = new Map(
    describeInputs(template).map((input): [string, Typed] => [
      input.name,
      typedInput(input, raw[input.name] ?? raw[input.flag]),
    ]),
  );
  return findings.map((finding) => oneAsTyped(finding, inputs));
}

/**
 * An input, with the text that gave it and its unit where that is a length in another one than
 * millimetres.
 */
interface Typed {
  readonly input: InputDescription;
  readonly length?: { readonly text: string; readonly mm: number; readonly unit: TypedUnit };
}

function typedInput(input: InputDescription, given: unknown): Typed {
  if (input.kind !== 'length' || typeof given !== 'string') return { input };
  const [unit, read] = [typedUnit(given), parseLength(given)];
  return unit === undefined || !read.ok
    ? { input }
    : { input, length: { text: given.trim(), mm: read.value, unit } };
}

function oneAsTyped(finding: Finding, inputs: ReadonlyMap<string, Typed>): Finding {
  const { said, mends = [] } = finding;
  if (said === undefined) return finding;
  const allowed = mends
    .filter((mend) => isAllowed(mend, inputs.get(mend.input)?.input))
    .map((mend) => atLimit(mend, inputs.get(mend.input)?.input));
  const what = [...inputs].reduce(
    (text, [name, { length }]) =>
      length === undefined
        ? text
        : text.replaceAll(`${name} ${figure(length.mm)}`, `${name} ${length.text}`),
    said.what,
  );
  const none =
    allowed.length === 0 && said.others.length === 0
      ? mends.flatMap((mend) => outOfReach(mend, inputs.get(mend.input)?.input)).slice(0, 1)
      : [];
  return composed(
    { ...finding, mends: allowed, said: { ...said, what: what + none.join('') } },
    (name) => inputs.get(name)?.length?.unit,
  );
}

const isAllowed = (
  { atLeast = -Infinity, atMost = Infinity }: Mend,
  { minimum = -Infinity, maximum = Infinity }: Partial<InputDescription> = {},
): boolean => atLeast <= maximum && atMost >= minimum;

/** A mend of no more than an input's minimum asks for exactly that minimum. */
const atLimit = (mend: Mend, { minimum, maximum }: Partial<InputDescription> = {}): Mend => {
  const { input, atLeast, atMost } = mend;
  if (atMost !== undefined && atMost === minimum) return just(input, atMost);
  return atLeast !== undefined && atLeast === maximum ? just(input, atLeast) : mend;
};

/** Wording where no allowed value of an input is enough. */
const outOfReach = (
  { input, atLeast }: Mend,
  { minimum, maximum }: Partial<InputDescription> = {},
): string[] => {
  const limit = atLeast === undefined ? minimum : maximum;
  return limit === undefined
    ? []
    : [`, and ${input} may be no ${atLeast === undefined ? 'less' : 'more'} than ${figure(limit)}`];
};
