import { WORDS_INPUT } from './accepts.ts';
import { type Field, type FieldReading, makeOptionalField } from './field.ts';

/** A field for names of folds, one or several; `undefined` where it is left out. */
export const foldNames = (about: string, example: string): Field<readonly string[] | undefined> =>
  makeOptionalField(
    {
      kind: 'text',
      isFreeText: true,
      about,
      allowed:
        "names of folds with ',' or ';' between them, such as A, C; of several blanks end-left A",
      example,
      otherwise: 'none',
    },
    WORDS_INPUT,
    (given): FieldReading<readonly string[]> => ({
      ok: true,
      value: [
        ...new Set(
          (typeof given === 'string' ? given.split(/[,;]/) : given)
            .map((name) => name.trim())
            .filter((name) => name !== ''),
        ),
      ],
    }),
  );
