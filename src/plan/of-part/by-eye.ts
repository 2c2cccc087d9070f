import type { FlatBend, FlatPattern } from '../../model/flat.ts';
import type { Fold, Part } from '../../model/part.ts';
import { NOISE_MM2 } from '../../geometry/tolerance.ts';
import {
  BLOCK_LONGEST_MM,
  BLOCK_MOMENT,
  BLOCK_THICKEST_MM,
  foldMomentNmm,
  isCrease,
} from '../machines/helps.ts';
import type { PartToFold } from './plan-steps.ts';
import { bendLengthMm, strengthMpa } from './step-notes.ts';

/**
 * Whether a fold is a crease that is made by eye and no stroke of the machine: it is one of the many
 * slight bends of a transition, whose lines run into corners of the openings where no stop and no
 * flat strip serves them, and light enough for a bar in the vice.
 */
export const isByEye = (
  { material, flat: { thicknessMm } }: Pick<PartToFold, 'material' | 'flat'>,
  fold: Pick<Fold, 'midSurface' | 'angleDeg'>,
  bend: FlatBend,
): boolean => {
  const longMm = bendLengthMm(bend);
  return (
    isCrease(fold) &&
    thicknessMm <= BLOCK_THICKEST_MM &&
    longMm <= BLOCK_LONGEST_MM &&
    foldMomentNmm(strengthMpa(material), thicknessMm, longMm) <= BLOCK_MOMENT
  );
};

/**
 * Folds in the order from the outside in, one end of the part after the other: what still lies flat
 * is held, and what is folded hangs from it.
 */
export const outsideIn = (part: Part, flat: FlatPattern, folds: readonly Fold[]): Fold[] => {
  const outer = new Map(part.folds.map((fold) => [fold.id, lighterSide(part, flat, fold)]));
  const of = ({ id }: Fold): ReadonlySet<string> => outer.get(id) as ReadonlySet<string>;
  // The fold nearest to the middle behind which it lies tells at which end.
  const endOf = (fold: Fold): number => {
    const beyond = part.folds.filter((other) => isWithin(of(fold), of(other)));
    return part.folds.indexOf(beyond.reduce((a, b) => (of(b).size > of(a).size ? b : a)));
  };
  return folds
    .map((fold) => ({ fold, end: endOf(fold), panels: of(fold).size }))
    .toSorted((a, b) => a.end - b.end || a.panels - b.panels)
    .map(({ fold }) => fold);
};

const isWithin = (some: ReadonlySet<string>, all: ReadonlySet<string>): boolean =>
  [...some].every((one) => all.has(one));

/** The panels on the lighter side of a fold. */
const lighterSide = ({ folds }: Part, { panels }: FlatPattern, fold: Fold): ReadonlySet<string> => {
  const beyond = new Set([fold.child.panel]);
  for (const id of beyond)
    for (const { id: other, parent, child } of folds) {
      if (other === fold.id) continue;
      if (parent.panel === id) beyond.add(child.panel);
      if (child.panel === id) beyond.add(parent.panel);
    }
  const excess = panels.reduce((sum, p) => sum + (beyond.has(p.id) ? p.areaMm2 : -p.areaMm2), 0);
  // Halves of equal size differ by rounding alone.
  return excess <= NOISE_MM2
    ? beyond
    : new Set(panels.map(({ id }) => id).filter((id) => !beyond.has(id)));
};
