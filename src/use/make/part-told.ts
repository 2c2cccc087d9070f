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

/** A set of inputs as it was given and as it was read. */
export interface GivenInputs {
  readonly template: Template;
  readonly raw: Readonly<Record<string, unknown>>;
  readonly values: CommonValues;
  /** What stops a part made of other inputs; `undefined` of inputs that cannot be read. */
  readonly stopsOf: (raw: Readonly<Record<string, unknown>>) => readonly Finding[] | undefined;
}

/** Findings as they are told of a part, once it came to be one. */
export type Teller = (findings: readonly Finding[], part?: Part) => FindingResult[];

/**
 * What is found of a part as whoever gave its inputs is told: by those inputs, in the units that
 * they were typed in, and each thing once. What a stop found on panels asks for is tried out once,
 * for all hands.
 */
export function tellerOf(given: GivenInputs): Teller {
  const tried = new Map<string, Finding>();
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
        stopsWith: changed(given),
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

/** Of what is about an input, what was given for it, and what it is to be. */
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

/** Without the noise of the arithmetic: a millionth of a millimetre is none. */
const tidy = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;

const tidyLimit = ({ atLeast, atMost, unit }: Limit): Limit => ({
  ...(atLeast !== undefined && { atLeast: tidy(atLeast) }),
  ...(atMost !== undefined && { atMost: tidy(atMost) }),
  unit,
});

/** What stops the same inputs with one changed or left out. */
const changed =
  ({ raw, stopsOf }: GivenInputs): Trial['stopsWith'] =>
  (input, value) =>
    stopsOf(applyMend(raw, { input, value }));

/** Where the value of an input that all families have is to be found. */
const COMMON: Readonly<Record<string, keyof CommonValues>> = {
  radius: 'insideRadiusMm',
  cornerGap: 'cornerGapMm',
  leastSlot: 'leastSlotMm',
  cornerRadius: 'cornerRadiusMm',
  cornerChamfer: 'cornerChamferMm',
};

function valueOf({ values }: GivenInputs, input: string): number | undefined {
  const value: unknown = Reflect.get(values, COMMON[input] ?? input);
  return typeof value === 'number' ? value : undefined;
}
