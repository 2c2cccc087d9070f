import type { Limit } from '../../model/measured.ts';
import { applyMend } from '../../forms/apply-mend.ts';
import { asTyped } from '../../forms/as-typed.ts';
import type { CommonValues } from '../../forms/common.ts';
import { describeInputs } from '../../forms/read.ts';
import type { Template } from '../../forms/template.ts';
import type { Finding } from '../../model/finding.ts';
import type { Part } from '../../model/part.ts';
import { tellOnce } from '../../model/tell-once.ts';
import { type Trial, triedMends } from './part-mends.ts';
import type { FindingResult } from '../../contract/part.ts';

/** A set of inputs as given and as read. */
export interface GivenInputs {
  readonly template: Template;
  readonly raw: Readonly<Record<string, unknown>>;
  readonly values: CommonValues;
  /** What stops a part made from other inputs; `undefined` for inputs that cannot be read. */
  readonly stopsOf: (raw: Readonly<Record<string, unknown>>) => readonly Finding[] | undefined;
}

/** Puts findings into the words in which they are told, with the part once there is one. */
export type Teller = (findings: readonly Finding[], part?: Part) => FindingResult[];

/**
 * Findings on a part as they are told to whoever gave its inputs: by those inputs, in the units in
 * which they were typed, and each once. The changes for a stop that was found on panels are tried
 * out once, for all hands.
 */
export function tellerOf(given: GivenInputs): Teller {
  const tried = new Map<string, Finding>();
  const stopsWith = changed(given);
  const mended = (finding: Finding, part: Part | undefined, stops: readonly Finding[]): Finding => {
    if ((finding.on === undefined && finding.tries === undefined) || finding.severity !== 'stop')
      return finding;
    const known =
      tried.get(finding.message) ??
      triedMends(finding, {
        part,
        stops,
        inputs: describeInputs(given.template),
        valueOf: (input) => valueOf(given, input),
        stopsWith,
      });
    tried.set(finding.message, known);
    return known;
  };
  return (findings, part) => {
    const once = tellOnce(findings);
    const stops = once.filter(({ severity }) => severity === 'stop');
    const told = once.map((finding) => mended(finding, part, stops));
    return asTyped(tellOnce(told), given.template, given.raw)
      .map((finding) => withFigures(finding, given))
      .map(bare);
  };
}

/** The finding with the given value and the limit, where it is about an input. */
function withFigures(finding: Finding, given: GivenInputs): Finding {
  const [mend] = finding.mends ?? [];
  if (finding.measured !== undefined || mend === undefined || mend.value !== undefined)
    return finding;
  const kind = describeInputs(given.template).find(({ name }) => name === mend.input)?.kind;
  const value = valueOf(given, mend.input);
  if (value === undefined || (kind !== 'length' && kind !== 'angle')) return finding;
  const unit = kind === 'length' ? 'mm' : 'deg';
  const { atLeast, atMost } = mend;
  return {
    ...finding,
    measured: { value, unit },
    limit: {
      ...(atLeast !== undefined && { atLeast }),
      ...(atMost !== undefined && { atMost }),
      unit,
    },
  };
}

const bare = ({
  rule,
  severity,
  message,
  on,
  panel = on?.panels.length === 1 ? on.panels[0] : undefined,
  at,
  measured,
  limit,
  inputs = [],
  mends = [],
}: Finding): FindingResult => ({
  rule,
  severity,
  message,
  ...(panel !== undefined && { panel }),
  ...(at !== undefined && { at: [tidy(at[0]), tidy(at[1])] }),
  ...(measured !== undefined && { measured: { ...measured, value: tidy(measured.value) } }),
  ...(limit !== undefined && { limit: tidyLimit(limit) }),
  ...(inputs.length > 0 && { inputs }),
  ...(mends.length > 0 && { mends }),
});

/** The value without the noise of the arithmetic, rounded to a millionth of a millimetre. */
const tidy = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;

const tidyLimit = ({ atLeast, atMost, unit }: Limit): Limit => ({
  ...(atLeast !== undefined && { atLeast: tidy(atLeast) }),
  ...(atMost !== undefined && { atMost: tidy(atMost) }),
  unit,
});

/**
 * What stops the same inputs with one changed or left out. Several stops of a part ask for the same
 * figures, which are made once.
 */
const changed = ({ raw, stopsOf }: GivenInputs): Trial['stopsWith'] => {
  const known = new Map<string, readonly Finding[] | undefined>();
  return (input, value) => {
    const key = JSON.stringify([input, value]);
    if (!known.has(key)) known.set(key, stopsOf(applyMend(raw, { input, value })));
    return known.get(key);
  };
};

/** Names of the values of the inputs that all families have. */
const COMMON: Readonly<Record<string, keyof CommonValues>> = {
  radius: 'insideRadiusMm',
  cornerGap: 'cornerGapMm',
  leastSlot: 'leastSlotMm',
  cornerRadius: 'cornerRadiusMm',
  cornerChamfer: 'cornerChamferMm',
};

function valueOf({ values }: GivenInputs, input: string): number | undefined {
  const value = valueOfInput(values, input);
  return typeof value === 'number' ? value : undefined;
}

/** The value of an input by its name, whatever it is; a family's own comes before a common one. */
export const valueOfInput = (values: CommonValues, input: string): unknown =>
  Reflect.get(values, Object.hasOwn(values, input) ? input : (COMMON[input] ?? input));
