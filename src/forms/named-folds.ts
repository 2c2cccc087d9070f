import type { Fold } from '../model/part.ts';
import { nearest } from '../text/nearest.ts';
import { shown } from './given.ts';
import type { JointValues } from './joint-inputs.ts';
import type { InputProblem } from './problem.ts';
import type { Built, Piece } from './template.ts';

/** The inputs that name folds, each with what it makes of them. */
export const AT = ['weldAt', 'slitAt', 'lapAt', 'tabAt', 'hemAt'] as const;

/** A blank of a family before it is cut apart; the only one has no name. */
export interface Blank extends Omit<Piece, 'id'> {
  readonly id: string | null;
}

export const blanksIn = ({ part, pieces }: Built): readonly Blank[] =>
  pieces ?? (part === undefined ? [] : [{ id: null, part }]);

/** Names by which a fold of a blank may be given: `A`, and of several blanks `end-left A` too. */
const namesOf = ({ id: blank }: Blank, { id }: Fold): readonly string[] =>
  blank === null ? [id] : [id, `${blank} ${id}`];

/** Folds of a blank that are among those named. */
export const named = (blank: Blank, names: readonly string[]): readonly string[] =>
  blank.part.folds
    .filter((fold) => namesOf(blank, fold).some((name) => names.includes(name)))
    .map(({ id }) => id);

/** Names of folds that say on which panel something is to be: `A on front`. */
const ON = / on (?=\S)/;

/** Folds of a blank that are among those named so, each with the panel where one was named. */
export const namedOn = (
  blank: Blank,
  names: readonly string[],
): readonly { readonly fold: Fold; readonly on: string | undefined }[] =>
  names.flatMap((given) => {
    const [name = '', on] = given.split(ON);
    return blank.part.folds
      .filter((fold) => namesOf(blank, fold).includes(name))
      .map((fold) => ({ fold, on }));
  });

/** Names in `weldAt` and the like that no fold has, and folds that are in several of them. */
export function foldNameProblems(
  built: Built,
  asked: Pick<JointValues, (typeof AT)[number]>,
): readonly InputProblem[] {
  const blanks = blanksIn(built);
  if (blanks.length === 0) return [];
  const unknown = AT.flatMap((input) => {
    const known = blanks.flatMap((blank) =>
      blank.part.folds.flatMap((fold) => namesIn(blank, fold, isOnPanel(input))),
    );
    return asked[input]
      .filter((name) => !known.includes(name))
      .map((name) => unknownName(input, name, known));
  });
  if (unknown.length > 0) return unknown;
  return blanks.flatMap((blank) =>
    blank.part.folds.flatMap((fold) => {
      const [first, ...others] = AT.flatMap((input) =>
        asked[input]
          .filter((name) => namesIn(blank, fold, isOnPanel(input)).includes(name))
          .map((name) => ({ input, name })),
      );
      return first === undefined || others.length === 0
        ? []
        : others.map(({ input, name }): InputProblem => ({
            input,
            given: name,
            allowed: `folds that are not in ${first.input} as well: a fold is made in one way`,
          }));
    }),
  );
}

const isOnPanel = (input: (typeof AT)[number]): boolean => input === 'lapAt' || input === 'tabAt';

/** Every name by which an input may give a fold, with the panel behind it where it takes one. */
const namesIn = (blank: Blank, fold: Fold, withPanel: boolean): readonly string[] =>
  namesOf(blank, fold).flatMap((name) =>
    withPanel
      ? [name, ...[fold.parent, fold.child].map(({ panel }) => `${name} on ${panel}`)]
      : [name],
  );

const unknownName = (input: string, name: string, known: readonly string[]): InputProblem => {
  const meant = nearest(name, known);
  return {
    input,
    given: shown(name),
    allowed:
      known.length === 0
        ? 'nothing: the part has no folds'
        : `folds of the part: ${[...new Set(known)].join(', ')}`,
    ...(meant !== undefined && { mend: `did you mean ${meant}?` }),
  };
};
