import type { Template } from '../input/template.ts';
import { nearest } from '../nearest.ts';
import { parseLength } from '../units.ts';
import type { Console } from './console.ts';
import { DiskRefused, EXIT, WrongInput } from './failure.ts';
import { COMMON_FLAGS, type Flags, type FlagSpec, type FlagSpecs, parseFlags, textOf } from './flags.ts';
import type { CommandHelp } from './help.ts';
import { VERSION } from './version.ts';

const COMMANDS = {
  list: 'The part families',
  describe: 'Inputs, limits, cautions and examples of one family',
  make: 'The flat blank of a part as DXF and SVG',
  bend: 'The sums of one bend, worked out',
  materials: 'The sheet catalogue, with sources',
  shop: 'The shop that parts are checked against, and whether its file is in order',
  plan: 'The order in which a part is folded on a machine, or what stands in the way',
  calibrate: "K and inside radius of the shop's own bends, out of measured strips",
  proof: 'Whether a DXF still folds to what was asked, measure by measure',
  trilaterate: 'Points out of the distances between them, as a tape finds them',
  demo: 'Parts of a vineyard cart, as an example',
} as const;

type CommandName = keyof typeof COMMANDS;

const MAKE_FLAGS = {
  from: { type: 'string', describe: 'YAML or JSON file of inputs; flags go before it' },
  out: { type: 'string', describe: 'Folder to write to; out/ when left out' },
  template: { type: 'string', describe: "A template of your own in place of a family's; runs the code in that file" },
  'cut-only': { type: 'boolean', describe: 'Only what is cut: no fold lines, no notes' },
  'dxf-version': { type: 'string', describe: 'r2000, or r12 for old controllers' },
  force: { type: 'boolean', describe: 'Replace files that were not made for this part' },
  'fold-at': { type: 'string', describe: 'here: a part that the shop cannot fold is stopped; service: it is folded elsewhere; auto, when left out: here where it can be' },
  kerf: { type: 'string', describe: "Cut lines half a kerf beside the metal, for tables that do not allow for it: a width, or shop for that of the shop's cutter" },
  marks: { type: 'string', describe: "How fold lines come onto the metal: lines, nicks in the edge at their ends, or none; as the shop file has it when left out" },
  shop: { type: 'string', describe: "Shop file to check against; else shop.yaml beside the job, then the user's own" },
} as const satisfies FlagSpecs;

/** Runs one command line and gives its exit code; never throws. */
export const run = async (given: readonly string[], console: Console): Promise<number> => {
  const args = wordsFirst(given);
  try {
    return await dispatch(args, console);
  } catch (error) {
    return failed(error, args, console);
  }
};

/** Moves common flags that stand in front of the command or the family behind them. */
const wordsFirst = (args: readonly string[]): string[] => {
  const isCommon = (arg: string): boolean => Object.keys(COMMON_FLAGS).some((name) => arg === `--${name}`);
  const at = args.findIndex((arg) => arg.startsWith('-') && !isCommon(arg));
  const front = at < 0 ? args : args.slice(0, at);
  return [...front.filter((arg) => !isCommon(arg)), ...front.filter(isCommon), ...args.slice(front.length)];
};

const dispatch = async (args: readonly string[], console: Console): Promise<number> => {
  const [first] = args;
  if (args.includes('--version')) {
    answer(console, args, 'version', VERSION);
    return EXIT.made;
  }
  if (first !== undefined && Object.hasOwn(COMMANDS, first)) return runCommand(first as CommandName, args, console);
  if (first !== undefined && !args.includes('--help')) throw unknownCommand(first);
  answer(console, args, 'help', await (await import('./help.ts')).overviewHelp(COMMANDS));
  return EXIT.made;
};

/** A text that is asked for as such; in JSON under the name of what it is. */
const answer = ({ out }: Console, args: readonly string[], name: 'help' | 'version', text: string): void => {
  out(args.includes('--json') ? JSON.stringify({ [name]: text }) : text);
};

const runCommand = async (name: CommandName, args: readonly string[], console: Console): Promise<number> => {
  const isOfFamily = name === 'plan' && args.slice(1).some((arg) => !arg.startsWith('-') || arg.startsWith('--template')) && valueOf(args, 'panels') === undefined;
  if (name === 'describe' || name === 'make' || isOfFamily) return runOnFamily(name as FamilyCommand, args, console);
  if (name === 'demo') return runDemo(args, console);
  if (name === 'trilaterate') return runTrilaterate(args, console);
  if (name === 'proof') return runProof(args, console);
  if (name === 'plan') return runPlan(args, console);
  if (name === 'shop') return runShop(args, console);
  if (name === 'calibrate') return runCalibrate(args, console);
  const bend = name === 'bend' ? await import('./commands/bend.ts') : undefined;
  const flags = await flagsOf(args, console, { usage: bend?.BEND_USAGE ?? name, about: COMMANDS[name], flags: bend?.BEND_FLAGS ?? {}, words: 1 });
  if (flags === undefined) return EXIT.made;
  const json = flags['json'] === true;
  if (bend !== undefined) return bend.bend(flags, json, console);
  if (name === 'list') return (await import('./commands/list.ts')).list(json, console);
  return (await import('./commands/materials.ts')).materials(json, console);
};

const runDemo = async (args: readonly string[], console: Console): Promise<number> => {
  const { out, force } = MAKE_FLAGS;
  const flags = await flagsOf(args, console, { usage: 'demo', about: COMMANDS.demo, flags: { out, force }, words: 1 });
  if (flags === undefined) return EXIT.made;
  return (await import('./commands/demo.ts')).demo({ out: textOf(flags, 'out') ?? 'out', force: flags['force'] === true, json: flags['json'] === true }, console);
};

const runShop = async (args: readonly string[], console: Console): Promise<number> => {
  const { shop, SHOP_FLAGS } = await import('./commands/shop.ts');
  const flags = await flagsOf(args, console, { usage: 'shop [--shop FILE]', about: COMMANDS.shop, flags: SHOP_FLAGS, words: 1 });
  return flags === undefined ? EXIT.made : shop(textOf(flags, 'shop'), flags['json'] === true, console);
};

const runPlan = async (args: readonly string[], console: Console): Promise<number> => {
  const { plan, PLAN_FLAGS, PLAN_USAGE } = await import('./commands/plan.ts');
  const flags = await flagsOf(args, console, { usage: PLAN_USAGE, about: COMMANDS.plan, flags: PLAN_FLAGS, words: 1 });
  if (flags === undefined) return EXIT.made;
  const panels = textOf(flags, 'panels');
  if (panels === undefined) {
    throw new WrongInput([{ input: '--panels', given: 'nothing', allowed: `a family, as in blankwright plan bracket-angle, or a file of panels and bends: blankwright ${PLAN_USAGE}` }]);
  }
  return plan({ panels, machine: textOf(flags, 'machine'), count: flags['count'] === true }, flags['json'] === true, console);
};

const runCalibrate = async (args: readonly string[], console: Console): Promise<number> => {
  const { calibrate, CALIBRATE_FLAGS, CALIBRATE_USAGE } = await import('./commands/calibrate.ts');
  const file = args[1] !== undefined && !args[1].startsWith('-') ? args[1] : undefined;
  const flags = await flagsOf(args, console, { usage: CALIBRATE_USAGE, about: COMMANDS.calibrate, flags: CALIBRATE_FLAGS, words: file === undefined ? 1 : 2 });
  return flags === undefined ? EXIT.made : calibrate({ file, save: textOf(flags, 'save'), ask: flags['ask'] === true }, flags['json'] === true, console);
};

const runTrilaterate = async (args: readonly string[], console: Console): Promise<number> => {
  const { trilaterate, TRILATERATE_USAGE } = await import('./commands/trilaterate.ts');
  const flags = await flagsOf(args, console, { usage: TRILATERATE_USAGE, about: COMMANDS.trilaterate, flags: {}, words: 2 });
  if (flags === undefined) return EXIT.made;
  const [, file] = args;
  if (file === undefined || file.startsWith('-')) {
    throw new WrongInput([{ input: 'file', given: 'nothing', allowed: `the name of a file of distances: blankwright ${TRILATERATE_USAGE}`, mend: 'write one distance a line in it, such as A-B: 312' }]);
  }
  return trilaterate(file, flags['json'] === true, console);
};

const runProof = async (args: readonly string[], console: Console): Promise<number> => {
  const { proof, PROOF_FLAGS, PROOF_USAGE } = await import('./commands/proof.ts');
  const flags = await flagsOf(args, console, { usage: PROOF_USAGE, about: COMMANDS.proof, flags: PROOF_FLAGS, words: 2 });
  if (flags === undefined) return EXIT.made;
  const [, file] = args;
  const part = textOf(flags, 'part');
  if (file === undefined || file.startsWith('-')) throw new WrongInput([{ input: 'file', given: 'nothing', allowed: `the name of a DXF file: blankwright ${PROOF_USAGE}` }]);
  if (part === undefined) throw new WrongInput([{ input: '--part', given: 'nothing', allowed: `what blankwright make ... --json printed, in a file: blankwright ${PROOF_USAGE}` }]);
  return proof(file, part, flags['json'] === true, console);
};

type FamilyCommand = 'describe' | 'make' | 'plan';

const runOnFamily = async (name: FamilyCommand, args: readonly string[], console: Console): Promise<number> => {
  const own = valueOf(args, 'template');
  const family = args[1] !== undefined && !args[1].startsWith('-') ? args[1] : undefined;
  const words = family === undefined ? 1 : 2;
  if (family === undefined && own === undefined) {
    if (!args.includes('--help')) {
      throw new WrongInput([{ input: 'family', given: 'nothing', allowed: `the name of a family: blankwright ${name} FAMILY`, mend: 'see blankwright list' }]);
    }
    await flagsOf(args, console, { usage: `${name} FAMILY`, about: COMMANDS[name], flags: name === 'make' ? MAKE_FLAGS : {}, words });
    return EXIT.made;
  }
  const { loadFamily, loadTemplateFile } = await import('./load-family.ts');
  if (own !== undefined) console.err(`Running the template ${own}: its code runs with your rights.`);
  const template = own === undefined ? await loadFamily(family as string) : await loadTemplateFile(own, console.importModule);
  if (family !== undefined && family !== template.family) {
    throw new WrongInput([{ input: 'family', given: `'${family}'`, allowed: `${template.family}, as the template says, or nothing`, mend: 'leave it out' }]);
  }
  if (name === 'make') return runMake(template, args, words, console);
  if (name === 'plan') return runPlanOf(template, args, words, console);
  const { template: templateFlag } = MAKE_FLAGS;
  const flags = await flagsOf(args, console, { usage: 'describe FAMILY', about: COMMANDS.describe, flags: { template: templateFlag }, words });
  return flags === undefined ? EXIT.made : (await import('./commands/describe.ts')).describe(template, flags['json'] === true, console);
};

const runMake = async (template: Template, args: readonly string[], words: number, console: Console): Promise<number> => {
  const asked = await askedOf(template, { name: 'make', flags: MAKE_FLAGS, words }, args, console);
  if (asked === undefined) return EXIT.made;
  const { flags, inputs, shop } = asked;
  const { make } = await import('./commands/make.ts');
  const request = {
    template,
    inputs,
    out: textOf(flags, 'out') ?? 'out',
    cutOnly: flags['cut-only'] === true,
    dxfVersion: dxfVersion(textOf(flags, 'dxf-version')),
    force: flags['force'] === true,
    foldAt: foldAt(textOf(flags, 'fold-at')),
    kerf: kerf(textOf(flags, 'kerf')),
    ...marks(textOf(flags, 'marks')),
    ...shop,
  };
  return make(request, flags['json'] === true, console);
};

const runPlanOf = async (template: Template, args: readonly string[], words: number, console: Console): Promise<number> => {
  const { planOf, PLAN_OF_FLAGS } = await import('./commands/plan-of.ts');
  const { from, template: templateFlag, shop: shopFlag } = MAKE_FLAGS;
  const asked = await askedOf(template, { name: 'plan', flags: { from, template: templateFlag, shop: shopFlag, ...PLAN_OF_FLAGS }, words }, args, console);
  if (asked === undefined) return EXIT.made;
  const { flags, inputs, shop } = asked;
  return planOf({ template, inputs, machine: textOf(flags, 'machine'), out: textOf(flags, 'out'), force: flags['force'] === true, ...shop }, flags['json'] === true, console);
};

/** What a command on a family is asked: its flags, the part's inputs out of the file and the flags, and the shop. */
const askedOf = async (
  template: Template,
  command: { readonly name: 'make' | 'plan'; readonly flags: FlagSpecs; readonly words: number },
  args: readonly string[],
  console: Console,
) => {
  const { describeInputs } = await import('../input/read.ts');
  const described = describeInputs(template);
  const group = (common: boolean): string => (common ? 'Inputs of every family' : `Inputs of ${template.family}`);
  const inputFlags = Object.fromEntries(described.map((i): [string, FlagSpec] => [i.flag, { type: 'string', describe: i.about, group: group(i.common) }]));
  const flags = await flagsOf(args, console, {
    usage: `${command.name} ${template.family} [flags]`,
    about: `${template.summary} More: blankwright describe ${template.family}`,
    flags: { ...inputFlags, ...command.flags },
    words: command.words,
  });
  if (flags === undefined) return undefined;
  const from = textOf(flags, 'from');
  const file = from === undefined ? {} : await (await import('./read-inputs-file.ts')).readPartFile(from, template.family);
  const { findShopFile, readShopFile } = await import('./shop-file.ts');
  const shopFile = findShopFile(textOf(flags, 'shop'), from);
  return { flags, inputs: merged(file, flags, described), shop: shopFile === undefined ? {} : { shop: await readShopFile(shopFile), shopFile } };
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

const foldAt = (text: string | undefined): 'here' | 'service' | 'auto' => {
  const place = text?.toLowerCase() ?? 'auto';
  if (place === 'here' || place === 'service' || place === 'auto') return place;
  throw new WrongInput([{ input: 'fold-at', given: `'${place}'`, allowed: 'here, service or auto' }]);
};

const marks = (text: string | undefined): { readonly marks?: 'lines' | 'nicks' | 'none' } => {
  const way = text?.toLowerCase();
  if (way === undefined) return {};
  if (way === 'lines' || way === 'nicks' || way === 'none') return { marks: way };
  throw new WrongInput([{ input: 'marks', given: `'${way}'`, allowed: 'lines, nicks or none' }]);
};

/** Wider than any cut. */
const WIDEST_KERF_MM = 10;

const kerf = (text: string | undefined): number | 'shop' => {
  if (text === undefined) return 0;
  if (text.toLowerCase() === 'shop') return 'shop';
  const width = parseLength(text);
  if (width.ok && width.value >= 0 && width.value <= WIDEST_KERF_MM) return width.value;
  throw new WrongInput([{ input: 'kerf', given: `'${text}'`, allowed: `a width from 0 to ${WIDEST_KERF_MM} mm, or shop`, ...(width.ok ? {} : { mend: width.reason }) }]);
};

/** The flags of one command, checked; `undefined` when help was asked for and printed. */
const flagsOf = async (args: readonly string[], console: Console, command: CommandHelp & { readonly words: number }): Promise<Flags | undefined> => {
  if (!args.includes('--help')) return parseFlags(args, command.flags, command.words);
  answer(console, args, 'help', await (await import('./help.ts')).commandHelp(command));
  return undefined;
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

/** Says what went wrong. JSON, when the input is wrong or the disk refuses: `{"problems":[{"input","given","allowed","mend"}]}`; `mend` may be absent. */
const failed = (error: unknown, args: readonly string[], { out, err }: Console): number => {
  if (error instanceof WrongInput) {
    if (args.includes('--json')) out(JSON.stringify({ problems: error.problems }));
    else err(error.message);
    return EXIT.wrongInput;
  }
  if (error instanceof DiskRefused) {
    if (args.includes('--json')) out(JSON.stringify({ problems: [error.problem] }));
    else err(error.message);
    return EXIT.disk;
  }
  err(`Internal error, which is a fault of blankwright: ${error instanceof Error ? error.message : String(error)}`);
  err(args.includes('--debug') && error instanceof Error ? (error.stack ?? '') : 'Run again with --debug for the details to report.');
  return 70;
};
