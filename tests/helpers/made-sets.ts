import type { Template } from '../../src/forms/template.ts';
import { type MadeSet, setsOf } from '../../src/use/assembly/assembled.ts';
import { FAMILIES } from '../../templates/index.ts';
import { madeOnce } from './made-once.ts';
import { UNPLANNED } from './unplanned.ts';

/** Families of which some examples are welded or bolted of several pieces. */
const JOINED = [
  'cradle',
  'duct-between',
  'duct-box',
  'duct-transition',
  'heel-rest',
  'panels',
  'tank',
  'tank-plan',
  'tank-sections',
];

export interface NamedSet {
  readonly title: string;
  readonly family: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly set: MadeSet;
}

/** The wholes that a set of inputs makes, one for each hand. */
export const setsFrom = (
  template: Template,
  inputs: Readonly<Record<string, unknown>>,
): readonly MadeSet[] => {
  const made = madeOnce(template, inputs, UNPLANNED);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return setsOf(made.parts);
};

/** Every whole that an example of a family makes, in both hands. */
export const exampleSets = async (): Promise<readonly NamedSet[]> => {
  const found = await Promise.all(
    JOINED.map(async (family) => {
      const template = (await FAMILIES.get(family)?.())?.default;
      if (template === undefined) throw new Error(`no family ${family}`);
      return template.examples.flatMap(({ inputs }) =>
        setsFrom(template, { ...inputs, hand: 'both' }).map((set): NamedSet => ({
          title: `${family} ${set.name}`,
          family,
          inputs,
          set,
        })),
      );
    }),
  );
  return found.flat();
};
