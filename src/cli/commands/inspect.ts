import { inLines } from '../terminal.ts';
import { basename, extname } from 'node:path';
import type { InspectedFile, InspectResult } from '../../contract/inspection.ts';
import { type UnstatedUnit, UNSTATED_UNITS } from '../../dxf/read/units.ts';
import type { InputProblem } from '../../forms/problem.ts';
import type { InspectOptions } from '../../inspect/inspect.ts';
import { hasStop } from '../../model/finding.ts';
import { inspectFile } from '../../use/inspect/inspect-file.ts';
import { inspectOptions } from '../../use/inspect/inspect-options.ts';
import { inspectedText } from '../../use/inspect/inspected-text.ts';
import type { Done } from '../../use/use-case.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { type Flags, type FlagSpecs, textOf, wordsOf } from '../flags.ts';
import { flagsOf } from '../flags-of.ts';
import { choiceOf } from '../option-flags.ts';
import { bytesOfDxf } from '../read-text-file.ts';
import { saveAll } from '../save.ts';
import { findShopFile, readShopFile } from '../shop-file.ts';
import type { RunCommand } from './index.ts';

const INSPECT_USAGE = 'inspect FILE.dxf...';

const INSPECT_FLAGS = {
  thickness: {
    type: 'string',
    describe: 'Thickness of the sheet, for least holes and webs; they are not judged when left out',
  },
  material: { type: 'string', describe: 'Material of the sheet; s275 when left out' },
  units: { type: 'string', describe: 'Read the file in mm, cm, m or inch, whatever it states' },
  gap: {
    type: 'string',
    describe: 'Widest gap between ends that were meant to meet; 1 mm when left out',
  },
  short: { type: 'string', describe: 'Tell of pieces shorter than this; 0.1 mm when left out' },
  error: {
    type: 'string',
    describe:
      'How far arcs may be from the splines and ellipses that they stand for; 0.01 mm when left out',
  },
  mend: {
    type: 'boolean',
    describe:
      'Write a mended copy of each file: gaps joined, doubles removed, blocks taken apart, curves as arcs; no copy where that is not enough',
  },
  svg: {
    type: 'boolean',
    describe: 'Draw each file as SVG, with a numbered mark where something was found',
  },
  out: { type: 'string', describe: 'Folder for mended copies and pictures; out/ when left out' },
  force: {
    type: 'boolean',
    describe: 'Replace files that were not made by this command from the same file',
  },
  shop: {
    type: 'string',
    describe:
      "Shop file, whose cutter is asked; else shop.yaml beside the first file, then the user's own",
  },
} as const satisfies FlagSpecs;

/**
 * `inspect FILE.dxf...`: contents of DXF files of any program, and what prevents cutting them.
 * JSON: `InspectResult`. When something prevents it, the command ends as for a part that cannot be
 * made; a file that cannot be inspected is wrong input.
 */
export const run: RunCommand = async (args, console) => {
  const flags = await flagsOf(args, console, {
    usage: INSPECT_USAGE,
    flags: INSPECT_FLAGS,
    words: Infinity,
  });
  if (flags === undefined) return EXIT.made;
  const files = wordsOf(flags);
  if (files[0] === undefined)
    throw new WrongInput([
      {
        input: 'file',
        given: 'nothing',
        allowed: `the name of a DXF file: blankwright ${INSPECT_USAGE}`,
      },
    ]);
  const inspected = inspectAll(files, await optionsOf(flags, files[0]), flags);
  const results = saved(inspected, flags);
  console.out(
    flags['json'] === true
      ? JSON.stringify({ files: results } satisfies InspectResult)
      : inLines(results.map(inspectedText).join('\n\n')),
  );
  return results.some((r) => hasStop(r.findings) || r.unmended !== null) ? EXIT.stopped : EXIT.made;
};

/** Writes what was asked for of every file, all or nothing, and tells where it went. */
const saved = (inspected: readonly Done<InspectedFile>[], flags: Flags): InspectedFile[] => {
  const files = inspected.flatMap((one) => one.files);
  const paths =
    files.length === 0
      ? []
      : saveAll(textOf(flags, 'out') ?? 'out', files, flags['force'] === true);
  let next = 0;
  return inspected.map(({ result }) => ({
    ...result,
    mended: result.mended && { ...result.mended, file: paths[next++] as string },
    picture: result.picture && (paths[next++] as string),
  }));
};

/**
 * Inspects the files one after the other, as each may take much memory. All files that cannot be
 * inspected are told at once.
 */
const inspectAll = (
  files: readonly string[],
  options: InspectOptions,
  flags: Flags,
): Done<InspectedFile>[] => {
  const problems: InputProblem[] = [];
  const inspected: Done<InspectedFile>[] = [];
  for (const name of files) {
    const title = basename(name, extname(name));
    const [mend, draw] = [flags['mend'] === true, flags['svg'] === true];
    const found = inspectFile({ name, title, bytes: bytesOfDxf(name), options, mend, draw });
    if (found.ok) inspected.push(found);
    else problems.push(...found.problems);
  }
  if (problems.length > 0) throw new WrongInput(problems);
  return inspected;
};

const optionsOf = async (flags: Flags, firstFile: string): Promise<InspectOptions> => {
  const given = {
    thickness: textOf(flags, 'thickness'),
    material: textOf(flags, 'material'),
    gap: textOf(flags, 'gap'),
    short: textOf(flags, 'short'),
    error: textOf(flags, 'error'),
    units: choiceOf(flags, 'units', Object.keys(UNSTATED_UNITS) as UnstatedUnit[]),
  };
  const read = inspectOptions(given);
  if (!read.ok) throw new WrongInput(read.problems);
  const shopFile = findShopFile(textOf(flags, 'shop'), firstFile);
  return shopFile === undefined
    ? read.options
    : { ...read.options, shop: await readShopFile(shopFile) };
};
