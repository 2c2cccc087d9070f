import type { Template } from '../../forms/template.ts';
import { makeParts } from '../make/make-parts.ts';
import type { MadePart } from '../made-part.ts';
import type { ScreenSize } from '../show/part-pictures.ts';
import { type LetteredSketch, letteredSketches } from './lettered-sketch.ts';
import { schematicSketches } from './schematic-sketch.ts';

type Inputs = Readonly<Record<string, unknown>>;

/** The parts that inputs make, without a plan of their folds; none where they make none. */
const madeOf = (template: Template, inputs: Inputs): readonly MadePart[] => {
  const made = makeParts(template, inputs, { foldAt: 'service' });
  return made.ok ? made.parts : [];
};

/**
 * Pictures of a part of a family with a letter at each measure, drawn from its first example where
 * no inputs are given: of the pieces, and of what no piece by itself shows. `parts` are what the
 * inputs make, where that is known.
 */
export const familySketches = (
  template: Template,
  size: ScreenSize,
  inputs: Inputs = template.examples[0]?.inputs ?? {},
  parts: readonly MadePart[] = template.stock === 'tube' ? [] : madeOf(template, inputs),
): LetteredSketch[] => [
  ...(template.stock === 'tube'
    ? []
    : letteredSketches({ template, inputs, parts, remade: (one) => madeOf(template, one) }, size)),
  ...schematicSketches(template, size, inputs),
];
