import { BEND_RULE_CHOICE, parseRule } from '../bending/rule.ts';
import { parseThickness } from '../data/gauges.ts';
import { leastRadiusMm } from '../bending/least-radius.ts';
import { findMaterial, MATERIALS } from '../data/materials.ts';
import type { BendRule } from '../model/bend-rule.ts';
import type { Material } from '../model/material.ts';
import type { Measure, Relief } from '../model/part.ts';
import { SCALAR } from './accepts.ts';
import { type FieldReading, makeField, type ValueOf } from './field.ts';
import { choice, count, group, length, optionalLength, optionalText } from './fields.ts';
import { type Difference, differences } from './differences.ts';
import { shown } from './given.ts';
import { JOINT_INPUTS, jointsOf, type JointValues } from './joint-inputs.ts';
import type { InputProblem } from './problem.ts';

/**
 * Which of the two hands are to be made: the left part is as described, the right one its mirror
 * image.
 */
export type HandChoice = 'left' | 'right' | 'both';

/** The inputs all families share, fully resolved. */
export interface CommonValues extends JointValues {
  readonly name: string;
  readonly material: Material;
  readonly thicknessMm: number;
  /** Inside radius of every bend that has none of its own, mm. */
  readonly insideRadiusMm: number;
  readonly rule: BendRule;
  readonly measure: Measure;
  /** Radius of the free outer corners, 0 for sharp ones. */
  readonly cornerRadiusMm: number;
  /** Length that is cut off the edges at the free outer corners instead, 0 for none. */
  readonly cornerChamferMm: number;
  readonly hand: HandChoice;
  /** What the right part of both hands has otherwise than the left one. */
  readonly rightDiffers: readonly Difference[];
  /** Number of parts of each hand. */
  readonly quantity: number;
  readonly reliefShape: Relief['shape'];
  readonly leastSlotMm: number;
  readonly cornerGapMm: number;
}

/**
 * S235 is the plain structural sheet that is stocked in the widest range of thicknesses, takes the
 * smallest radii of the structural grades and welds without precaution.
 */
const DEFAULT_MATERIAL = 's235';

const THINNEST_MM = 0.2;
const THICKEST_MM = 25;

const word = (
  looked: { ok: true; value: unknown } | { ok: false; reason: string },
): { mend?: string } => (looked.ok ? {} : { mend: looked.reason });

const material = makeField(
  {
    kind: 'material',
    about: 'The sheet the part is cut from.',
    allowed: `a material of the catalogue: ${MATERIALS.map((m) => m.id).join(', ')}`,
    default: DEFAULT_MATERIAL,
    example: 's275',
  },
  SCALAR,
  (given): FieldReading<Material> => {
    const found = findMaterial(String(given));
    return found.ok ? found : { ok: false, ...word(found) };
  },
);

/** Stays text here, because the meaning of `16ga` depends on the material. */
const thickness = makeField(
  {
    kind: 'thickness',
    about:
      'Thickness of the sheet, or its gauge such as 16ga where the material has a gauge scale.',
    allowed: `a thickness from ${THINNEST_MM} to ${THICKEST_MM} mm, or a gauge`,
    unit: 'mm',
    minimum: THINNEST_MM,
    maximum: THICKEST_MM,
    anchor: { kind: 'sheet' },
    example: '3',
  },
  SCALAR,
  (given): FieldReading<string> => ({ ok: true, value: String(given) }),
);

const rule = makeField(
  {
    kind: 'rule',
    about: 'The rule for the length of the bends in the flat.',
    allowed: BEND_RULE_CHOICE,
    default: 'din6935',
    example: 'k:0.42',
  },
  SCALAR,
  (given): FieldReading<BendRule> => {
    const read = parseRule(String(given));
    return read.ok ? read : { ok: false, ...word(read) };
  },
);

/** Fields of the inputs all families share, in the order in which help shows them. */
export const COMMON_INPUTS = {
  ...group('Sheet', {
    material,
    thickness,
  }),
  ...group('Bends', {
    radius: optionalLength({
      about: 'Inside radius of the bends.',
      min: 0,
      max: 1000,
      example: 3,
      otherwise:
        'the larger of the least inside radius of the material and the thickness; by rule measured, the radius that was measured',
      anchor: { kind: 'bends' },
    }),
    rule,
    measure: choice({
      about: [
        'Whether lengths are outside or inside dimensions: each leg from its free edge to where the outside (inside)',
        'faces meet, and to the outermost (innermost) tangent of a bend over 90 degrees.',
      ].join(' '),
      choices: ['outside', 'inside'],
      default: 'outside',
    }),
  }),
  ...group('Free corners', {
    cornerRadius: length({
      about: 'Radius of the free outer corners, 0 for sharp ones.',
      min: 0,
      max: 1000,
      default: 0,
      example: 5,
      anchor: { kind: 'corners' },
    }),
    cornerChamfer: length({
      about:
        'How much of their edges is cut off at the free outer corners, instead of rounding them.',
      min: 0,
      max: 1000,
      default: 0,
      example: 5,
      anchor: { kind: 'corners' },
    }),
  }),
  ...group('Making', {
    hand: choice({
      about: 'The left part is as described, the right one is its mirror image.',
      choices: ['left', 'right', 'both'],
      default: 'left',
    }),
    rightDiffers: differences({
      about:
        'Inputs that the right part has otherwise than the left one: it is the mirror image of a part of those.',
      when: { hand: ['both'] },
    }),
    quantity: count({ about: 'How many to make, of each hand.', min: 1, max: 100_000, default: 1 }),
    name: optionalText({
      about: 'Name of the part, also of its files.',
      max: 80,
      example: 'seat-post-bracket',
      otherwise: 'the name of the family',
    }),
  }),
  ...JOINT_INPUTS,
  ...group('Reliefs and gaps', {
    relief: choice({
      about: 'Shape of the notch where a fold ends inside metal or two folds meet.',
      choices: ['square', 'round', 'slit'],
      default: 'round',
    }),
    leastSlot: length({
      // Air plasma cuts a kerf of 1.3 to 2 mm (common practice).
      about: 'The narrowest slot the cutter can cut.',
      min: 0.05,
      max: 20,
      default: 2,
      anchor: { kind: 'bends' },
    }),
    cornerGap: length({
      about: 'Gap between the ends of neighbouring flanges, to be welded.',
      min: 0,
      max: 20,
      default: 0.5,
      anchor: { kind: 'bends' },
    }),
  }),
} as const;

/** Values of the fields of `COMMON_INPUTS`; an input with a problem of its own is missing. */
export type CommonParsed = {
  readonly [K in keyof typeof COMMON_INPUTS]?: ValueOf<(typeof COMMON_INPUTS)[K]>;
};

/**
 * Settles what depends on several inputs: the gauge and the radius. `values` is there only if every
 * common input is usable; problems of single fields are not repeated.
 */
export function resolveCommon(
  parsed: CommonParsed,
  family: string,
): { readonly values?: CommonValues; readonly problems: readonly InputProblem[] } {
  // A thickness is checked even beside a material that is not known, so that both problems are told
  // at once.
  const thicknessMm =
    parsed.thickness === undefined
      ? undefined
      : readThickness(parsed.thickness, parsed.material ?? plainSteel());
  const problems = thicknessMm?.ok === false ? [thicknessMm.problem] : [];
  const {
    material: sheet,
    rule: bendRule,
    measure,
    cornerRadius,
    cornerChamfer,
    hand,
    rightDiffers,
    quantity,
    relief,
    leastSlot,
    cornerGap,
  } = parsed;
  const complete =
    thicknessMm?.ok === true &&
    sheet !== undefined &&
    bendRule !== undefined &&
    measure !== undefined &&
    cornerRadius !== undefined &&
    cornerChamfer !== undefined &&
    hand !== undefined &&
    rightDiffers !== undefined &&
    quantity !== undefined &&
    relief !== undefined &&
    leastSlot !== undefined &&
    cornerGap !== undefined;
  if (!complete) return { problems };
  if (cornerRadius > 0 && cornerChamfer > 0) {
    const problem = {
      input: 'cornerChamfer',
      given: `${shown(cornerChamfer)} beside cornerRadius ${cornerRadius}`,
      allowed: 'one of the two',
    };
    return {
      problems: [...problems, { ...problem, mend: 'leave out cornerRadius or cornerChamfer' }],
    };
  }
  const t = thicknessMm.value;
  return {
    problems,
    values: {
      name: parsed.name ?? family,
      material: sheet,
      thicknessMm: t,
      insideRadiusMm: parsed.radius ?? Math.max(leastRadiusMm(sheet, t), t),
      rule: bendRule,
      measure,
      cornerRadiusMm: cornerRadius,
      cornerChamferMm: cornerChamfer,
      hand,
      rightDiffers: hand === 'both' ? rightDiffers : [],
      quantity,
      reliefShape: relief,
      leastSlotMm: leastSlot,
      cornerGapMm: cornerGap,
      ...jointsOf(parsed, { material: sheet, thicknessMm: t, leastSlotMm: leastSlot }),
    },
  };
}

function plainSteel(): Material {
  const found = findMaterial(DEFAULT_MATERIAL);
  if (!found.ok)
    throw new Error(`the default material ${DEFAULT_MATERIAL} is not in the catalogue`);
  return found.value;
}

function readThickness(
  given: string,
  sheet: Material,
):
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly problem: InputProblem } {
  const read = parseThickness(given, sheet);
  if (read.ok && read.value >= THINNEST_MM && read.value <= THICKEST_MM) return read;
  const problem = {
    input: 'thickness',
    given: shown(given),
    allowed: `a thickness from ${THINNEST_MM} to ${THICKEST_MM} mm, or a gauge`,
  };
  return { ok: false, problem: read.ok ? problem : { ...problem, mend: read.reason } };
}
