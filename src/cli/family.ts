import type { Template } from '../input/template.ts';
import type { Shop } from '../model/shop.ts';
import type { Console } from './console.ts';
import { WrongInput } from './failure.ts';
import { type Flags, type FlagSpec, type FlagSpecs, textOf } from './flags.ts';
import { flagsOf, valueOf, wordOf } from './flags-of.ts';

/** Flags of the commands that read a part's inputs. */
export const FAMILY_FLAGS = {
  from: { type: 'string', describe: 'YAML or JSON file of inputs; flags go before it' },
  template: { type: 'string', describe: "A template of your own in place of a family's; runs the code in that file" },
  shop: { type: 'string', describe: "Shop file to check against; else shop.yaml beside the job, then the user's own" },
} as const satisfies FlagSpecs;

/** Of a command on a family: how many words stand in front of its flags, and the template that it names. */
export interface FamilyWords {
  readonly words: number;
  readonly template: Template;
}

/**
 * The template that a command line names, as a family or with `--template`; `undefined` when it names none and help
 * was printed. Throws `WrongInput` when it names none otherwise.
 */
export const familyOf = async (args: readonly string[], console: Console, flags: FlagSpecs): Promise<FamilyWords | undefined> => {
  const own = valueOf(args, 'template');
  const family = wordOf(args);
  const words = family === undefined ? 1 : 2;
  const name = args[0] as string;
  if (family === undefined && own === undefined) {
    if (!args.includes('--help')) {
      throw new WrongInput([{ input: 'family', given: 'nothing', allowed: `the name of a family: blankwright ${name} FAMILY`, mend: 'see blankwright list' }]);
    }
    await flagsOf(args, console, { usage: `${name} FAMILY`, flags, words });
    return undefined;
  }
  const { loadFamily, loadTemplateFile } = await import('./load-family.ts');
  if (own !== undefined) console.err(`Running the template ${own}: its code runs with your rights.`);
  const template = own === undefined ? await loadFamily(family as string) : await loadTemplateFile(own, console.importModule);
  if (family !== undefined && family !== template.family) {
    throw new WrongInput([{ input: 'family', given: `'${family}'`, allowed: `${template.family}, as the template says, or nothing`, mend: 'leave it out' }]);
  }
  return { words, template };
};

/** What a command on a family is asked: its flags, the part's inputs out of the file and the flags, and the shop. */
export interface FamilyAsked {
  readonly template: Template;
  readonly flags: Flags;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly shop: { readonly shop?: Shop; readonly shopFile?: string };
}

/** Reads all that a command on a family is asked; `undefined` when help was asked for and printed. */
export const familyAsked = async (args: readonly string[], console: Console, flagSpecs: FlagSpecs): Promise<FamilyAsked | undefined> => {
  const named = await familyOf(args, console, flagSpecs);
  if (named === undefined) return undefined;
  const { template, words } = named;
  const { describeInputs } = await import('../input/read.ts');
  const described = describeInputs(template);
  const group = (common: boolean): string => (common ? 'Inputs of every family' : `Inputs of ${template.family}`);
  const inputFlags = Object.fromEntries(described.map((i): [string, FlagSpec] => [i.flag, { type: 'string', describe: i.about, group: group(i.common) }]));
  const flags = await flagsOf(args, console, {
    usage: `${args[0]} ${template.family} [flags]`,
    about: `${template.summary} More: blankwright describe ${template.family}`,
    ...(args.includes('--help') && template.examples[0] !== undefined && { example: (await import('./example-command.ts')).exampleCommand(args[0] as string, template.family, template.examples[0]) }),
    flags: { ...inputFlags, ...flagSpecs },
    words,
  });
  if (flags === undefined) return undefined;
  const from = textOf(flags, 'from');
  const file = from === undefined ? {} : await (await import('./read-inputs-file.ts')).readPartFile(from, template.family);
  const { findShopFile, readShopFile } = await import('./shop-file.ts');
  const shopFile = findShopFile(textOf(flags, 'shop'), from);
  return { template, flags, inputs: merged(file, flags, described), shop: shopFile === undefined ? {} : { shop: await readShopFile(shopFile), shopFile } };
};

/** A file's inputs with the flags on top, whichever way either spells a name. */
const merged = (file: Readonly<Record<string, unknown>>, flags: Flags, inputs: readonly { readonly name: string; readonly flag: string }[]): Record<string, unknown> => {
  const given = inputs.filter((i) => flags[i.flag] !== undefined);
  const overruled = new Set(given.flatMap((i) => [i.name, i.flag]));
  const kept = Object.entries(file).filter(([key]) => !overruled.has(key));
  return Object.fromEntries([...kept, ...given.map((i) => [i.name, flags[i.flag]] as const)]);
};
