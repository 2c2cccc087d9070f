import type { FindingResult, Hand } from '../../contract/part.ts';
import type { CommonValues } from '../../forms/common.ts';
import {
  type Difference,
  differencesText,
  inputsOfLeft,
  inputsOfRight,
} from '../../forms/differences.ts';
import { shown } from '../../forms/given.ts';
import { camelCase } from '../../forms/input-name.ts';
import { describeInputs, type ReadInputs, readInputs } from '../../forms/read.ts';
import { templateFlaws } from '../../forms/template-flaws.ts';
import type { Template } from '../../forms/template.ts';
import { SAME_IN_FILE_MM } from '../../geometry/tolerance.ts';
import { type Finding, note } from '../../model/finding.ts';
import { handsDifferText } from '../../model/hands-differ.ts';
import { withResult } from '../made-part.ts';
import { begin, blanksOf } from './begin.ts';
import type { Context, UnplannedBlank } from './context.ts';
import type { Made } from './make-given.ts';
import type { FilledOptions } from './make-options.ts';

type Raw = Readonly<Record<string, unknown>>;

/** One hand of two that differ, and what the other one is made of. */
export interface Apart {
  readonly hand: Hand;
  /** What differs, in words: `top 255 (left 280)`. */
  readonly told: string;
  readonly otherValues: Side['read']['values'];
  /** The blanks of the other hand, before they are mirrored; built when they are first asked for. */
  readonly otherBlanks: () => readonly UnplannedBlank[];
}

/** Inputs that are made at once: of both hands, or of one of two that differ. */
export interface OneMaking {
  readonly raw: Raw;
  readonly options: FilledOptions;
}

/** What is made of some inputs, one after the other: where the right part differs, each hand by itself. */
export function handsApart(
  template: Template,
  raw: Raw,
  options: FilledOptions,
): readonly OneMaking[] {
  const both = differingHands(template, raw);
  if (both === undefined) return [{ raw, options }];
  const { left, right, told } = both;
  const once: Partial<Record<Hand, readonly UnplannedBlank[]>> = {};
  const apart = (hand: Hand): Apart => {
    const [own, other] = hand === 'left' ? (['left', right] as const) : (['right', left] as const);
    return {
      hand: own,
      told,
      otherValues: other.read.values,
      otherBlanks: () => (once[own] ??= builtOf(template, other, options)),
    };
  };
  return [
    { raw: left.raw, options: { ...options, apart: apart('left') } },
    { raw: right.raw, options: { ...options, apart: apart('right') } },
  ];
}

interface Side {
  readonly raw: Raw;
  readonly read: ReadInputs & { readonly ok: true };
}

/** The inputs of either hand, where both are asked for and the right part differs. */
const differingHands = (
  template: Template,
  raw: Raw,
): { readonly left: Side; readonly right: Side; readonly told: string } | undefined => {
  const differences = differencesIn(template, raw);
  if (differences.length === 0) return undefined;
  const [left, right] = [inputsOfLeft(raw), inputsOfRight(raw, differences)].map((side) => ({
    raw: side,
    read: readInputs(template, side),
  }));
  return left?.read.ok === true && right?.read.ok === true
    ? { left: left as Side, right: right as Side, told: toldOf(template, raw, differences) }
    : undefined;
};

/** What the right part of some inputs has otherwise; nothing where they cannot be read. */
export const differencesIn = (template: Template, raw: Raw): readonly Difference[] => {
  const isAsked =
    typeof raw === 'object' &&
    raw !== null &&
    Object.keys(raw).some((name) => camelCase(name) === 'rightDiffers') &&
    templateFlaws(template).length === 0;
  const read = isAsked ? readInputs(template, raw) : undefined;
  return read?.ok === true ? read.values.rightDiffers : [];
};

const toldOf = (template: Template, raw: Raw, differences: readonly Difference[]): string => {
  const described = new Map(describeInputs(template).map((input) => [input.name, input]));
  const words = (given: unknown): string =>
    given === undefined ? 'left out' : typeof given === 'string' ? given : shown(given);
  return differences
    .map(({ input, given }) => {
      const name = camelCase(input);
      const own = Object.entries(raw).find(([key]) => camelCase(key) === name)?.[1];
      return `${name} ${words(given)} (left ${words(own ?? described.get(name)?.default)})`;
    })
    .join(', ');
};

const builtOf = (
  template: Template,
  { raw, read }: Side,
  options: FilledOptions,
): readonly UnplannedBlank[] => {
  const begun = begin(template, raw, read, { ...options, foldAt: 'service' });
  return begun.ok ? blanksOf(begun.built, begun.context) : [];
};

/** Whether the blank of the other hand is made too, or meant, and is the same turned over. */
export const hasOtherHand = (
  { values, options: { apart } }: Context,
  blank: UnplannedBlank,
): boolean => {
  if (apart === undefined) return values.hand !== 'left';
  const other = apart.otherBlanks().find(({ id }) => id === blank.id);
  return other !== undefined && cutAs(blank, values) === cutAs(other, apart.otherValues);
};

/** What a blank is cut by, as a text that is the same for blanks that are the same in their files. */
const cutAs = ({ part }: UnplannedBlank, { material, thicknessMm, rule }: CommonValues): string => {
  const { name: _, wishes: __, ...shape } = part ?? { name: '', wishes: [] };
  return JSON.stringify([shape, material.id, thicknessMm, rule], (_key, value: unknown) =>
    typeof value === 'number' ? Math.round(value / SAME_IN_FILE_MM) : value,
  );
};

/** Says what differs between the hands, and whether this blank does; nothing where they are alike. */
export const apartNotes = (apart: Apart | undefined, isSame: boolean): Finding[] =>
  apart === undefined
    ? []
    : [note('hands-differ', handsDifferText(apart.told, apart.hand, isSame))];

/**
 * What was made of either hand as one: findings on the right part alone are told by what would mend
 * that one, and reports bear the hand.
 */
export function joinedHands(template: Template, raw: Raw, made: readonly Made[]): Made {
  const [left, right] = made;
  if (left === undefined || right === undefined || !left.ok) return left as Made;
  if (!right.ok) return right;
  const differences = differencesIn(template, raw);
  const told = new Set(
    left.parts.flatMap(({ result }) => result.findings.map(({ message }) => message)),
  );
  const lists = right.lists.filter(({ input }) =>
    differences.some((own) => camelCase(own.input) === input),
  );
  return {
    ok: true,
    parts: [
      ...left.parts,
      ...right.parts.map((part) =>
        withResult(part, {
          findings: part.result.findings.map((finding) =>
            told.has(finding.message) ? finding : ofRight(finding, differences),
          ),
        }),
      ),
    ],
    tubes: [...left.tubes, ...right.tubes],
    reports: [...left.reports, ...right.reports],
    lists: [
      ...left.lists,
      ...lists.map((list) => ({ ...list, input: `rightDiffers.${list.input}` })),
    ],
  };
}

/** A finding on the right part alone: what mends it is one more difference, or another figure of one. */
const ofRight = (finding: FindingResult, differences: readonly Difference[]): FindingResult => {
  const { inputs = [], mends = [] } = finding;
  if (inputs.length === 0) return finding;
  const mended = mends.flatMap(({ input, atLeast, atMost, value = null }) => {
    const figure = atLeast ?? atMost ?? value ?? undefined;
    const others = differences.filter((own) => camelCase(own.input) !== input);
    const text = differencesText([...others, { input, given: figure }]);
    return text === undefined ? [] : [{ input: 'rightDiffers', value: text }];
  });
  const { mends: _, ...rest } = finding;
  return {
    ...rest,
    inputs: [...new Set([...inputs, 'rightDiffers'])],
    ...(mended.length > 0 && { mends: mended }),
  };
};
