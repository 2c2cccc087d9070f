import type { FieldFacts } from './field.ts';

/**
 * Letters of the measures in pictures. Small ones: folds have capitals. Without i, l and o, which
 * are taken for figures.
 */
const LETTERS = 'abcdefghjkmnpqrstuvwxyz';

interface Asked extends Pick<FieldFacts, 'kind'> {
  readonly name: string;
  readonly required: boolean;
  readonly common: boolean;
}

/** An input that is a length or an angle of the part itself, which a picture can show. */
const isMeasure = ({ kind, common }: Asked): boolean =>
  !common && (kind === 'length' || kind === 'angle');

/**
 * The letter that each measure of a family has in its pictures, by its name: what must be given
 * first, both in the order in which the family asks for them. A family with more measures than
 * letters leaves the last ones without.
 */
export const lettersOf = (inputs: readonly Asked[]): ReadonlyMap<string, string> => {
  const measures = inputs.filter(isMeasure);
  const ordered = [...measures.filter((m) => m.required), ...measures.filter((m) => !m.required)];
  return new Map(
    ordered.slice(0, LETTERS.length).map(({ name }, i) => [name, LETTERS[i] as string]),
  );
};
