import { flatten } from '../../flatten/flatten.ts';
import { fitOf, type MeasuredInput } from '../../fit/fit.ts';
import type { FitResult } from '../../contract/fit.ts';
import { wholeBuilt } from '../../forms/built.ts';
import type { CommonValues } from '../../forms/common.ts';
import type { Chosen, FIT } from '../../forms/making.ts';
import { describeInputs } from '../../forms/read.ts';
import type { Template } from '../../forms/template.ts';
import { hasStop } from '../../model/finding.ts';
import type { FlatPattern } from '../../model/flat.ts';
import { mirrorPart } from '../../model/mirror.ts';
import type { Part } from '../../model/part.ts';
import type { Shop } from '../../model/shop.ts';
import { askedOf } from '../../measure/asked-part.ts';
import type { Hand } from '../../contract/part.ts';

/** Options for how well a part will fit. */
export type FitOptions = Omit<Chosen<typeof FIT>, 'fit'>;

/** A set of inputs, with everything that makes a part from it. */
export interface Inputs {
  readonly template: Template;
  readonly values: CommonValues;
  readonly plusMinus: Readonly<Record<string, number>>;
}

/** One blank of a set of inputs, as made. */
export interface MadeBlank {
  /** Which of a family's blanks it is; `null` for the only one. */
  readonly piece: string | null;
  readonly hand: Hand;
  readonly flat: FlatPattern;
  readonly kerfMm: number;
  readonly part: Part;
  readonly shop: Shop;
  readonly marks: Shop['marking']['folds'];
  /** Id of the machine that folds it; a service has press brakes. */
  readonly machine: string | undefined;
}

/** How well a blank is likely to fit. */
export const fitOfBlank = (
  inputs: Inputs,
  { part, flat, kerfMm, shop, marks, machine, ...blank }: MadeBlank,
  options: FitOptions,
): FitResult => {
  const { values, plusMinus } = inputs;
  const asked = askedOf(withoutWishes(part), flat, kerfMm);
  const foldedOn = shop.machines.find((m) => m.id === machine)?.kind ?? 'press brake';
  const measured = measuredInputs(inputs);
  return fitOf({
    asked,
    flat,
    making: {
      material: values.material,
      thicknessMm: values.thicknessMm,
      rule: values.rule,
      bends: asked.bends,
      shop,
      foldedOn,
      marks,
      plusMinus,
    },
    inputs: measured,
    askAgain: (input, by) => {
      const again = partWith(
        inputs,
        blank,
        measured.find((m) => m.name === input),
        by,
      );
      if (again === undefined) return undefined;
      const laidFlat = flatten(again, values.rule);
      return laidFlat.outline.length === 0
        ? undefined
        : { asked: askedOf(withoutWishes(again), laidFlat, kerfMm), flat: laidFlat };
    },
    ...options,
  });
};

/**
 * The part without its wishes: measures of the part tell the inputs as well, and each should be
 * told once.
 */
const withoutWishes = (part: Part): Part => ({ ...part, wishes: [] });

/**
 * Inputs of all families that may state how far they are off, with the names that templates have
 * for them.
 */
const COMMON: Readonly<Record<string, string>> = {
  cornerRadius: 'cornerRadiusMm',
  cornerChamfer: 'cornerChamferMm',
  cornerGap: 'cornerGapMm',
  leastSlot: 'leastSlotMm',
};

interface Measured extends MeasuredInput {
  /** Name under which its value is found. */
  readonly key: string;
  readonly minimum: number;
  readonly maximum: number;
}

/**
 * All lengths and angles of the family itself, and those inputs of all families that state how far
 * they may be off.
 */
const measuredInputs = ({ template, values, plusMinus }: Inputs): Measured[] =>
  describeInputs(template).flatMap(
    ({ name, common, unit, minimum = -Infinity, maximum = Infinity }): Measured[] => {
      const key = common ? COMMON[name] : name;
      if (key === undefined || unit === undefined || typeof valueOf(values, key) !== 'number')
        return [];
      return common && plusMinus[name] === undefined
        ? []
        : [{ name, key, unit, minimum, maximum, plusMinus: plusMinus[name] }];
    },
  );

const valueOf = (values: CommonValues, key: string): unknown =>
  Object.entries(values).find(([name]) => name === key)?.[1];

const partWith = (
  { template, values }: Inputs,
  { piece, hand }: Pick<MadeBlank, 'piece' | 'hand'>,
  input: Measured | undefined,
  by: number,
): Part | undefined => {
  const before = input === undefined ? undefined : valueOf(values, input.key);
  if (
    input === undefined ||
    typeof before !== 'number' ||
    before + by < input.minimum ||
    before + by > input.maximum
  )
    return undefined;
  const changed = { ...values, [input.key]: before + by };
  const { part, pieces, findings = [] } = wholeBuilt(template.build(changed), changed);
  if (hasStop(findings)) return undefined;
  const left = piece === null ? part : pieces?.find((p) => p.id === piece)?.part;
  return left === undefined || hand === 'left' ? left : mirrorPart(left);
};
