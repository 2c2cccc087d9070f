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
    return asTyped(tellOnce(told), given.template, given.raw).map(bare);
  };
}

const bare = ({ rule, severity, message, inputs = [], mends = [] }: Finding): FindingResult => ({
  rule,
  severity,
  message,
  ...(inputs.length > 0 && { inputs }),
  ...(mends.length > 0 && { mends }),
});

/** The same inputs with one changed or left out, by whichever of its two names it was given. */
const changed =
  ({ template, raw, stopsOf }: GivenInputs): Trial['stopsWith'] =>
  (input, value) => {
    const flag = describeInputs(template).find(({ name }) => name === input)?.flag ?? input;
    const { [input]: _, [flag]: __, ...others } = raw;
    return stopsOf(value === null ? others : { ...others, [input]: value });
  };

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
