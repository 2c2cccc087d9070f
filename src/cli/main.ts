import type { Argv } from 'yargs';
import type { AnyTemplate } from '../input/any-template.ts';
import { nearest } from '../nearest.ts';
import type { Console } from './console.ts';
import { DiskRefused, EXIT, WrongInput } from './failure.ts';
import { checkFlags, COMMON_FLAGS, type Flags, textOf } from './flags.ts';
import { VERSION } from './version.ts';

const COMMANDS = {
  list: 'The part families',
  describe: 'Inputs, limits, cautions and examples of one family',
  make: 'The flat blank of a part as DXF and SVG',
  bend: 'The sums of one bend, worked out',
  materials: 'The sheet catalogue, with sources',
} as const;

type CommandName = keyof typeof COMMANDS;

const MAKE_FLAGS = {
  from: { type: 'string', describe: 'YAML or JSON file of inputs; flags go before it' },
  out: { type: 'string', describe: 'Folder to write to; out/ when left out' },
  template: { type: 'string', describe: "A template of your own in place of a family's; runs the code in that file" },
  'cut-only': { type: 'boolean', describe: 'Only what is cut: no fold lines, no notes' },
  'dxf-version': { type: 'string', describe: 'r2000, or r12 for old controllers' },
  force: { type: 'boolean', describe: 'Replace files that were not made for this part' },
} as const;

/** Runs one command line and gives its exit code; never throws. */
export const run = async (args: readonly string[], console: Console): Promise<number> => {
  try {
    return await dispatch(args, console);
  } catch (error) {
    return failed(error, args, console);
  }
};

const dispatch = async (args: readonly string[], console: Console): Promise<number> => {
  const [first] = args;
  if (first === '--version') {
    console.out(VERSION);
    return EXIT.made;
  }
  const isCommand = first !== undefined && Object.hasOwn(COMMANDS, first);
  const asksHelp = args.includes('--help');
  if (!isCommand && !asksHelp && first !== undefined) throw unknownCommand(first);
  const { default: yargs } = await import('yargs');
  const base = yargs([...args])
    .locale('en')
    .scriptName('blankwright')
    .parserConfiguration({ 'camel-case-expansion': false, 'parse-numbers': false, 'parse-positional-numbers': false, 'dot-notation': false, 'boolean-negation': false })
    .options(COMMON_FLAGS)
    .version(false)
    .help(false)
    .exitProcess(false)
    .wrap(Math.min(100, process.stdout.columns ?? 80));
  if (!isCommand) return printHelp(overview(base), console);
  return runCommand(first as CommandName, base, args, console);
};

const overview = (base: Argv): Argv => {
  for (const [name, about] of Object.entries(COMMANDS)) base.command(name === 'describe' || name === 'make' ? `${name} FAMILY` : name, about);
  return base
    .usage('Turns dimensions measured on a job into sheet-metal blanks that fold to fit.\n\nblankwright COMMAND --help says more.')
    .example('blankwright make bracket-angle --leg-a 60 --leg-b 40 --width 80 --thickness 3', 'an angle bracket')
    .epilogue(
      'Lengths are outside dimensions in mm unless told otherwise: a leg is measured from its free edge to where the outside faces meet (mould line), and to the outermost tangent of a bend over 90 degrees, as DIN 6935 measures it; --measure inside takes inside dimensions by the same logic.\nExit codes: 0 made, 1 the part cannot be made, 2 wrong input, 3 the disk refused.',
    );
};

const printHelp = async (args: Argv, { out }: Console): Promise<number> => {
  out(await args.getHelp());
  return EXIT.made;
};

const runCommand = async (name: CommandName, base: Argv, args: readonly string[], console: Console): Promise<number> => {
  switch (name) {
    case 'list':
    case 'materials': {
      const flags = await parse(base.usage(`blankwright ${name}\n\n${COMMANDS[name]}`), args, console, [], 1);
      if (flags === undefined) return EXIT.made;
      if (name === 'list') return (await import('./commands/list.ts')).list(flags['json'] === true, console);
      return (await import('./commands/materials.ts')).materials(flags['json'] === true, console);
    }
    case 'bend': {
      const { bend, BEND_FLAGS } = await import('./commands/bend.ts');
      const described = base
        .usage(`blankwright bend --thickness 3 --radius 3 --angle 90 --rule din6935\n\n${COMMANDS.bend}`)
        .options(BEND_FLAGS);
      const flags = await parse(described, args, console, Object.keys(BEND_FLAGS), 1);
      return flags === undefined ? EXIT.made : bend(flags, flags['json'] === true, console);
    }
    case 'describe':
    case 'make':
      return runOnFamily(name, base, args, console);
  }
};

const runOnFamily = async (name: 'describe' | 'make', base: Argv, args: readonly string[], console: Console): Promise<number> => {
  const { loadFamily, loadTemplateFile } = await import('./load-family.ts');
  const own = valueOf(args, 'template');
  const family = args[1] !== undefined && !args[1].startsWith('-') ? args[1] : undefined;
  if (family === undefined && own === undefined) {
    if (args.includes('--help')) return printHelp(base.usage(`blankwright ${name} FAMILY\n\n${COMMANDS[name]}`).options(name === 'make' ? MAKE_FLAGS : {}), console);
    throw new WrongInput([{ input: 'family', given: 'nothing', allowed: `the name of a family: blankwright ${name} FAMILY`, mend: 'see blankwright list' }]);
  }
  if (own !== undefined) console.err(`Running the template ${own}: its code runs with your rights.`);
  const template = own === undefined ? await loadFamily(family as string) : await loadTemplateFile(own);
  const words = family === undefined ? 1 : 2;
  if (name === 'describe') {
    const flags = await parse(base.usage(`blankwright describe FAMILY\n\n${COMMANDS.describe}`).options({ template: MAKE_FLAGS.template }), args, console, ['template'], words);
    return flags === undefined ? EXIT.made : (await import('./commands/describe.ts')).describe(template, flags['json'] === true, console);
  }
  return runMake(template, base, args, words, console);
};

const runMake = async (template: AnyTemplate, base: Argv, args: readonly string[], words: number, console: Console): Promise<number> => {
  const { describeInputs } = await import('../input/read.ts');
  const inputs = describeInputs(template);
  const inputFlags = Object.fromEntries(inputs.map((i) => [i.flag, { type: 'string', describe: i.about, group: i.common ? 'Inputs of every family' : `Inputs of ${template.family}` } as const]));
  const described = base.usage(`blankwright make ${template.family} [flags]\n\n${template.summary} More: blankwright describe ${template.family}`).options(MAKE_FLAGS).options(inputFlags);
  const flags = await parse(described, args, console, [...Object.keys(MAKE_FLAGS), ...inputs.map((i) => i.flag)], words);
  if (flags === undefined) return EXIT.made;
  const from = textOf(flags, 'from');
  const file = from === undefined ? {} : await (await import('./read-inputs-file.ts')).readInputsFile(from);
  const { make } = await import('./commands/make.ts');
  const request = {
    template,
    inputs: merged(file, flags, inputs),
    out: textOf(flags, 'out') ?? 'out',
    cutOnly: flags['cut-only'] === true,
    dxfVersion: dxfVersion(textOf(flags, 'dxf-version')),
    force: flags['force'] === true,
  };
  return make(request, flags['json'] === true, console);
};

/** A file's inputs with the flags on top, whichever way either spells a name. */
const merged = (file: Readonly<Record<string, unknown>>, flags: Flags, inputs: readonly { readonly name: string; readonly flag: string }[]): Record<string, unknown> => {
  const given = inputs.filter((i) => flags[i.flag] !== undefined);
  const overruled = new Set(given.flatMap((i) => [i.name, i.flag]));
  const kept = Object.entries(file).filter(([key]) => !overruled.has(key));
  return Object.fromEntries([...kept, ...given.map((i) => [i.name, flags[i.flag]] as const)]);
};

const dxfVersion = (text: string | undefined): 'r2000' | 'r12' => {
  const version = text?.toLowerCase() ?? 'r2000';
  if (version === 'r2000' || version === 'r12') return version;
  throw new WrongInput([{ input: 'dxf-version', given: `'${version}'`, allowed: 'r2000 or r12' }]);
};

/** The flags of one command, checked; `undefined` when help was asked for and printed. */
const parse = async (described: Argv, args: readonly string[], console: Console, own: readonly string[], words: number): Promise<Flags | undefined> => {
  if (args.includes('--help')) {
    await printHelp(described, console);
    return undefined;
  }
  const flags = (await described.parseAsync()) as Flags;
  checkFlags(flags, [...own, ...Object.keys(COMMON_FLAGS)], words);
  return flags;
};

/** A flag's value before the flags are parsed: what flags there are depends on it. */
const valueOf = (args: readonly string[], flag: string): string | undefined => {
  const at = args.findIndex((a) => a === `--${flag}` || a.startsWith(`--${flag}=`));
  if (at < 0) return undefined;
  return args[at]?.includes('=') === true ? args[at].slice(flag.length + 3) : args[at + 1];
};

const unknownCommand = (given: string): WrongInput => {
  const names = Object.keys(COMMANDS);
  const meant = nearest(given, names);
  return new WrongInput([{ input: 'command', given: `'${given}'`, allowed: names.join(', '), mend: meant === undefined ? 'see blankwright --help' : `did you mean ${meant}?` }]);
};

const failed = (error: unknown, args: readonly string[], { out, err }: Console): number => {
  if (error instanceof WrongInput) {
    if (args.includes('--json')) out(JSON.stringify({ problems: error.problems }));
    else err(error.message);
    return EXIT.wrongInput;
  }
  if (error instanceof DiskRefused) {
    err(error.message);
    return EXIT.disk;
  }
  err(`Internal error, which is a fault of blankwright: ${error instanceof Error ? error.message : String(error)}`);
  err(args.includes('--debug') && error instanceof Error ? (error.stack ?? '') : 'Run again with --debug for the details to report.');
  return 70;
};
