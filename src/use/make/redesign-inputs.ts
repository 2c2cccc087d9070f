import { describeInputs, type InputDescription } from '../../forms/read.ts';
import type { CommonValues } from '../../forms/common.ts';
import type { Template } from '../../forms/template.ts';
import { grouped } from '../../text/grouped.ts';
import { valueOfInput } from './part-told.ts';
import { LEAST_CHOICE, shareWithin } from './redesign-cost.ts';
import { nearestMends, type Way } from './nearest-mends.ts';
import type { Design, Trials } from './redesign-trials.ts';

/** Inputs of the family that are given another value. */
export type Changed = Readonly<Record<string, string | number>>;

/** The most changes of sizes that are told. */
const MOST_SIZES = 2;

/** So many figures are tried: a change of size that takes more is seldom near. */
const MOST_TRIED = 60;

/** A size that becomes less than this share of itself, or more than its inverse, is another part. */
const LEAST_SHARE = 0.6;

/**
 * Changes of the family's own inputs with which every blank can be folded, and which cost less than
 * `mostCost`: a choice made otherwise, or a size, those of a pair together.
 */
export const changesFor = (
  template: Template,
  design: Design,
  trials: Trials,
  mostCost = Infinity,
): readonly Changed[] => [
  ...(mostCost > LEAST_CHOICE ? otherChoices(template, design, trials) : []),
  ...otherSizes(template, design, trials, Math.min(1 - LEAST_SHARE, shareWithin(mostCost))),
];

const works = ({ raw }: Design, trials: Trials, changed: Changed): boolean => {
  if (trials.isSpent()) return false;
  const tried = trials.designOf({ ...raw, ...changed });
  return (
    tried !== undefined && tried.blanks.every(({ part }) => trials.canBeFolded(part, tried.context))
  );
};

const otherChoices = (template: Template, design: Design, trials: Trials): readonly Changed[] =>
  choicesOf(template, design).filter((changed) => works(design, trials, changed));

const choicesOf = (template: Template, { context: { values } }: Design): readonly Changed[] => [
  ...describeInputs(template)
    .filter(({ isMaking }) => isMaking === true)
    .flatMap(({ name, choices = [] }) =>
      choices
        .filter((choice) => choice !== 'auto' && choice !== valueOfInput(values, name))
        .map((choice): Changed => ({ [name]: choice })),
    ),
  ...turnedOver(template, values),
];

/** Flanges and lips in the other hand, where the family says that they may be: one, or all of them. */
const turnedOver = (template: Template, values: CommonValues): readonly Changed[] => {
  const single = describeInputs(template)
    .filter(({ mayTurn }) => mayTurn === true)
    .flatMap(({ name, choices = [] }): Changed[] => {
      const other = OTHER_HAND[String(valueOfInput(values, name))];
      return other !== undefined && choices.includes(other) ? [{ [name]: other }] : [];
    });
  return single.length > 1 ? [...single, Object.assign({}, ...single) as Changed] : single;
};

/** What a flange or lip becomes that is turned the other way. */
const OTHER_HAND: Readonly<Record<string, string>> = Object.fromEntries(
  [
    ['in', 'out'],
    ['hem-in', 'hem-out'],
    ['up', 'down'],
  ].flatMap(([a = '', b = '']) => [
    [a, b],
    [b, a],
  ]),
);

/** Designs with one choice of how it is made taken otherwise, as far as they are sound. */
export const otherDesigns = (
  template: Template,
  design: Design,
  trials: Trials,
): readonly { readonly changed: Changed; readonly tried: Design }[] =>
  choicesOf(template, design).flatMap((changed) => {
    const tried = trials.designOf({ ...design.raw, ...changed });
    return tried === undefined ? [] : [{ changed, tried }];
  });

/** A size, or several that belong together and are equal: those of both sides. */
interface Size {
  readonly names: readonly string[];
  readonly input: InputDescription;
  readonly now: number;
}

const otherSizes = (
  template: Template,
  design: Design,
  trials: Trials,
  mostShare: number,
): readonly Changed[] => {
  const sizes = mostShare <= 0 ? [] : sizesOf(template, design, mostShare);
  const sizeOf = new Map(sizes.map((size) => [size.names.join('+'), size]));
  const changed = (name: string, value: number): Changed =>
    Object.fromEntries((sizeOf.get(name)?.names ?? []).map((one) => [one, value]));
  const ways = sizes.flatMap(({ names, input, now }): Way[] =>
    ([1, -1] as const).map((sign) => ({ input: { ...input, name: names.join('+') }, now, sign })),
  );
  let left = MOST_TRIED;
  return nearestMends(
    ways,
    MOST_SIZES,
    (name, value) => left-- > 0 && works(design, trials, changed(name, value)),
  ).flatMap(({ input, atLeast, atMost }) => {
    const value = atLeast ?? atMost;
    return value === undefined ? [] : [changed(input, value)];
  });
};

const sizesOf = (
  template: Template,
  { context: { values } }: Design,
  mostShare: number,
): readonly Size[] => {
  const own = describeInputs(template).flatMap((input): Size[] => {
    const now = valueOfInput(values, input.name);
    return input.common || input.kind !== 'length' || typeof now !== 'number' || now <= 0
      ? []
      : [{ names: [input.name], input: within(input, now, mostShare), now }];
  });
  const sides = grouped(own, ({ input, now }) => `${stemOf(input.name)} ${now}`);
  return [
    ...own,
    ...sides
      .filter((group) => group.length > 1)
      .map((group): Size => {
        const [first] = group as [Size];
        return { ...first, names: group.flatMap(({ names }) => names) };
      }),
  ];
};

/** An input that may not become quite another size. */
const within = (input: InputDescription, now: number, mostShare: number): InputDescription => ({
  ...input,
  minimum: Math.max(input.minimum ?? 0, (1 - mostShare) * now),
  maximum: Math.min(input.maximum ?? Infinity, now / (1 - mostShare)),
});

/** What inputs of both sides have in common: `flange` of `flangeA` and `flangeB`. */
const stemOf = (name: string): string =>
  name.replace(/(?:[A-Z]|Left|Right|Front|Rear|Back|Top|Bottom)$/, '');
