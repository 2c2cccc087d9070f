/**
 * What one input has to be: given at all, more than 0, or one of these words and figures, with
 * `true` and `false` for a yes or no.
 */
export type Wanted = 'given' | 'more than 0' | readonly (string | boolean | number)[];

/** What other inputs have to be, all of them, by name. */
export type Condition = Readonly<Record<string, Wanted>>;

/**
 * A condition, or several of which one has to be met, under which an input has a meaning; an empty
 * list is never met.
 */
export type When = Condition | readonly Condition[];

const conditionsOf = (when: When): readonly Condition[] =>
  Array.isArray(when) ? (when as readonly Condition[]) : [when as Condition];

/** The inputs that it speaks of. */
export const inputsIn = (when: When): string[] => [
  ...new Set(conditionsOf(when).flatMap((condition) => Object.keys(condition))),
];

/** Whether values that were read meet it. */
export const isMet = (when: When, values: Readonly<Record<string, unknown>>): boolean =>
  conditionsOf(when).some((condition) =>
    Object.entries(condition).every(([input, wanted]) => isWanted(values[input], wanted)),
  );

const isWanted = (value: unknown, wanted: Wanted): boolean => {
  if (wanted === 'given')
    return value !== undefined && !(Array.isArray(value) && value.length === 0);
  if (wanted === 'more than 0') return typeof value === 'number' && value > 0;
  return (wanted as readonly unknown[]).includes(value);
};

/** A sentence such as `Only where corner is lapped.` */
export const onlyText = (when: When): string =>
  conditionsOf(when).length === 0
    ? 'It changes nothing here.'
    : `Only where ${conditionText(when)}.`;

/**
 * Words such as `corner is lapped`, `end is lip-in or lip-out`, `lip is more than 0 and lipHole is
 * given`; an empty text for a condition that is never met.
 */
export const conditionText = (when: When): string =>
  conditionsOf(when)
    .map((condition) =>
      Object.entries(condition)
        .map(([input, wanted]) => `${input} is ${wantedText(wanted)}`)
        .join(' and '),
    )
    .join(', or ');

const wantedText = (wanted: Wanted): string => {
  if (typeof wanted === 'string') return wanted;
  const words = wanted.map((word) => (typeof word === 'string' ? word : word ? 'yes' : 'no'));
  return words.length === 1
    ? String(words[0])
    : `${words.slice(0, -1).join(', ')} or ${String(words.at(-1))}`;
};
