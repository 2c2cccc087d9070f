import { ALL_FAMILIES } from '../../templates/index.ts';
import { shown } from '../forms/given.ts';
import type { InputDescription } from '../forms/read.ts';
import type { Template } from '../forms/template.ts';
import type { Shop } from '../model/shop.ts';
import { COMMANDS } from './commands/index.ts';
import type { Console } from './console.ts';
import { WrongInput } from './failure.ts';
import { type Flags, type FlagSpec, type FlagSpecs, textOf } from './flags.ts';
import { flagsOf, valueOf, wordsFirst } from './flags-of.ts';
import type { FileInputs } from './read-inputs-file.ts';

/** Flags of the commands that read a part's inputs. */
export const FAMILY_FLAGS = {
  from: { type: 'string', describe: 'YAML or JSON file of inputs; flags go before it' },
  template: {
    type: 'string',
    describe: "A template of your own in place of a family's; runs the code in that file",
  },
  shop: {
    type: 'string',
    describe: "Shop file to check against; else shop.yaml beside the job, then the user's own",
  },
} as const satisfies FlagSpecs;

/**
 * The words of a command on a family: how many it has, the template that they name, and the
 * contents of the file of `--from`.
 */
export interface FamilyWords {
  readonly words: number;
  readonly template: Template;
  readonly file: FileInputs;
}

/**
 * The template that a command line names, as a family, with `--template` or in its file of inputs;
 * `undefined` when it names none and help was printed. Throws `WrongInput` when it names none and
 * help was not asked for.
 */
export const familyOf = async (
  given: readonly string[],
  console: Console,
  flags: FlagSpecs,
): Promise<FamilyWords | undefined> => {
  const args = wordsFirst(given, flags);
  const [own, from] = [
    valueOf(args, 'template'),
    Object.hasOwn(flags, 'from') ? valueOf(args, 'from') : undefined,
  ];
  const family = args[1]?.startsWith('-') === false ? args[1] : undefined;
  const words = family === undefined ? 1 : 2;
  if (args.includes('--help') && family === undefined && own === undefined)
    return helpOn(args, console, flags);
  const file =
    from === undefined || args.includes('--help')
      ? {}
      : await (await import('./read-inputs-file.ts')).readInputsFile(from);
  const template = await templateOf(args, { own, family, named: file['family'], from }, console);
  if (family !== undefined && family !== template.family) {
    throw new WrongInput([
      {
        input: 'family',
        given: `'${family}'`,
        allowed: `${template.family}, as the template says, or nothing`,
        mend: 'leave it out',
      },
    ]);
  }
  if (file['family'] !== undefined && file['family'] !== template.family) {
    throw new WrongInput([
      {
        input: 'family',
        given: `${shown(file['family'])} in ${from}`,
        allowed: `${template.family}, as the command says, or nothing`,
      },
    ]);
  }
  return { words, template, file };
};

const helpOn = async (
  args: readonly string[],
  console: Console,
  flags: FlagSpecs,
): Promise<undefined> => {
  const name = args[0] as string;
  const about = `${COMMANDS[name]?.about ?? ''}. ${name === 'describe' ? 'blankwright list names the families.' : familiesHelp(name)}`;
  await flagsOf(args, console, { usage: `${name} FAMILY`, about, flags, words: 1 });
  return undefined;
};

/** Hint for the help of a command: how to find the inputs of its family. */
export const familiesHelp = (command: string): string =>
  `blankwright list names the families; blankwright describe FAMILY gives the inputs of one, with a drawing; blankwright ${command} FAMILY --help lists them as flags.`;

interface Named {
  /** Template named with `--template`. */
  readonly own: string | undefined;
  /** Family named as a word. */
  readonly family: string | undefined;
  /** Family named in the file of inputs. */
  readonly named: unknown;
  readonly from: string | undefined;
}

const templateOf = async (
  args: readonly string[],
  { own, family, named, from }: Named,
  console: Console,
): Promise<Template> => {
  const { loadFamily, loadTemplateFile } = await import('./load-family.ts');
  if (own !== undefined) {
    console.err(`Running the template ${own}: its code runs with your rights.`);
    return loadTemplateFile(own, console.importModule);
  }
  const name = family ?? named;
  if (name !== undefined)
    return loadFamily(
      typeof name === 'string' ? name : shown(name),
      family === undefined ? ` in ${from}` : '',
    );
  const at = args.findIndex((arg) => ALL_FAMILIES.has(arg));
  const given =
    at < 0 ? 'nothing' : `nothing: ${args[at]} is taken for the value of ${args[at - 1]}`;
  const allowed = `the name of a family: blankwright ${args[0]} FAMILY${from === undefined ? '' : `; or family: and its name in ${from}`}`;
  throw new WrongInput([
    {
      input: 'family',
      given,
      allowed,
      mend: at < 0 ? 'see blankwright list' : `write it first: blankwright ${args[0]} ${args[at]}`,
    },
  ]);
};

/**
 * Everything that a command on a family is given: its flags, the part's inputs from the file and
 * the flags, and the shop.
 */
export interface FamilyAsked {
  readonly template: Template;
  readonly flags: Flags;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly shop: { readonly shop?: Shop; readonly shopFile?: string };
}

/**
 * Reads everything that a command on a family is given; `undefined` when help was asked for and
 * printed.
 */
export const familyAsked = async (
  args: readonly string[],
  console: Console,
  flagSpecs: FlagSpecs,
): Promise<FamilyAsked | undefined> => {
  const named = await familyOf(args, console, flagSpecs);
  if (named === undefined) return undefined;
  const { template, words, file } = named;
  const { describeInputs } = await import('../forms/read.ts');
  const described = describeInputs(template);
  const group = (common: boolean): string =>
    common ? 'Inputs of every family' : `Inputs of ${template.family}`;
  const inputFlags = Object.fromEntries(
    described.flatMap((i): [string, FlagSpec][] => {
      const flag = { type: 'string', describe: i.about, group: group(i.common) } as const;
      const each = {
        ...flag,
        describe: `One more of ${i.flag}; may be repeated`,
        isRepeated: true,
      } as const;
      return [
        [i.flag, flag],
        ...(i.each === undefined ? [] : [[i.each, each] as [string, FlagSpec]]),
      ];
    }),
  );
  const flags = await flagsOf(args, console, {
    usage: `${args[0]} ${template.family} [flags]`,
    about: `${template.summary} More: blankwright describe ${template.family}`,
    ...(args.includes('--help') &&
      template.examples[0] !== undefined && {
        example: (await import('./example-command.ts')).exampleCommand(
          args[0] as string,
          template,
          template.examples[0],
        ),
      }),
    flags: { ...inputFlags, ...flagSpecs },
    words,
    of:
      valueOf(args, 'template') === undefined
        ? `${args[0]} ${template.family}`
        : `${args[0]} --template ${valueOf(args, 'template')}`,
  });
  if (flags === undefined) return undefined;
  const { findShopFile, readShopFile } = await import('./shop-file.ts');
  const shopFile = findShopFile(textOf(flags, 'shop'), textOf(flags, 'from'));
  const { family: _, ...inFile } = file;
  return {
    template,
    flags,
    inputs: merged(inFile, flags, described),
    shop: shopFile === undefined ? {} : { shop: await readShopFile(shopFile), shopFile },
  };
};

/** A file's inputs with the flags on top, whichever way either spells a name. */
const merged = (
  file: Readonly<Record<string, unknown>>,
  flags: Flags,
  inputs: readonly InputDescription[],
): Record<string, unknown> => {
  const given = inputs.filter((i) => flags[i.flag] !== undefined);
  const overruled = new Set(given.flatMap((i) => [i.name, i.flag]));
  const kept = Object.entries(file).filter(([key]) => !overruled.has(key));
  const whole: Record<string, unknown> = Object.fromEntries([
    ...kept,
    ...given.map((i) => [i.name, flags[i.flag]] as const),
  ]);
  for (const { name, flag, each } of inputs) {
    const more = each === undefined ? undefined : flags[each];
    if (more === undefined) continue;
    const before = whole[name] ?? whole[flag];
    delete whole[flag];
    whole[name] = [before, more].flatMap(entriesIn);
  }
  return whole;
};

/** A list as it is; of a text its lines, and nothing of nothing. */
const entriesIn = (given: unknown): readonly unknown[] => {
  if (Array.isArray(given)) return given;
  return typeof given === 'string' ? given.split('\n') : given === undefined ? [] : [given];
};
