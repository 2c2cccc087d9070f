import { basename, extname } from 'node:path';
import { findMaterial } from '../../data/materials.ts';
import { DEFAULT_SHOP } from '../../data/shop-default.ts';
import type { InputProblem } from '../../forms/problem.ts';
import { type UnstatedUnit, UNSTATED_UNITS } from '../../dxf/read/units.ts';
import {
  type Inspected,
  inspectDxf,
  type InspectOptions,
  type Inspection,
} from '../../inspect/inspect.ts';
import { inspectionText } from '../../inspect/inspection-text.ts';
import { markedSvg } from '../../inspect/marked-svg.ts';
import { mendedCopy } from '../../inspect/mend.ts';
import { type Finding, hasStop } from '../../model/finding.ts';
import { safeName } from '../../text/safe-name.ts';
import { parseLength } from '../../text/units.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { type Flags, type FlagSpecs, textOf } from '../flags.ts';
import { flagsOf } from '../flags-of.ts';
import { choiceOf } from '../option-flags.ts';
import { bytesOfDxf } from '../read-text-file.ts';
import { type MarkedFile, saveAll } from '../save.ts';
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
      'Write a mended copy of each file: gaps joined, nothing twice, blocks taken apart, curves as arcs; none where more than that stands in the way',
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

/** The JSON document of `inspect --json`. */
export interface InspectResult {
  readonly files: readonly InspectedFile[];
}

export interface InspectedFile extends Inspection {
  readonly file: string;
  /**
   * The mended copy and every change in it; `null` when none was asked for, or none could be made.
   */
  readonly mended: { readonly file: string; readonly changes: readonly string[] } | null;
  /** What keeps a copy from being mended; `null` when none was asked for, or it was made. */
  readonly unmended: readonly Finding[] | null;
  /** The marked-up picture; `null` when none was asked for. */
  readonly picture: string | null;
}

/**
 * `inspect FILE.dxf...`: what is in DXF files of any program, and what stands in the way of cutting
 * them. JSON: `InspectResult`. Ends as a part that cannot be made does when something does; a file
 * that cannot be looked at is wrong input.
 */
export const run: RunCommand = async (args, console) => {
  const { out } = console;
  const flags = await flagsOf(args, console, {
    usage: INSPECT_USAGE,
    flags: INSPECT_FLAGS,
    words: Infinity,
  });
  if (flags === undefined) return EXIT.made;
  const [, ...files] = (flags['_'] as readonly unknown[]).map(String);
  if (files[0] === undefined)
    throw new WrongInput([
      {
        input: 'file',
        given: 'nothing',
        allowed: `the name of a DXF file: blankwright ${INSPECT_USAGE}`,
      },
    ]);
  const options = await optionsOf(flags, files[0]);
  const inspected = await inspectAll(files, options);
  const saved = save(inspected, options, flags);
  const results = inspected.map(({ file, found: { inspection } }, i): InspectedFile => ({
    file,
    ...inspection,
    ...(saved[i] as Saved),
  }));
  if (flags['json'] === true) out(JSON.stringify({ files: results } satisfies InspectResult));
  else out(results.map(textOfFile).join('\n\n'));
  return results.some((r) => hasStop(r.findings) || r.unmended !== null) ? EXIT.stopped : EXIT.made;
};

const textOfFile = (result: InspectedFile): string => {
  const { file, findings, mended, unmended, picture } = result;
  const told = new Set(findings.map((f) => f.message));
  return [
    inspectionText(file, result),
    ...(mended === null
      ? []
      : [`  mended copy ${mended.file}`, ...mended.changes.map((change) => `    ${change}`)]),
    ...(unmended === null
      ? []
      : [
          '  no mended copy: what stops the file is for you to mend',
          ...unmended.filter((f) => !told.has(f.message)).map((f) => `    ${f.message}`),
        ]),
    ...(picture === null ? [] : [`  picture   ${picture}`]),
  ].join('\n');
};

interface Saved {
  readonly mended: InspectedFile['mended'];
  readonly unmended: InspectedFile['unmended'];
  readonly picture: string | null;
}

/** Writes what was asked for of every file, all or nothing. */
const save = (inspected: readonly Found[], options: InspectOptions, flags: Flags): Saved[] => {
  const made = inspected.map(({ file, found }) => {
    const title = safeName(basename(file, extname(file)));
    const mark = `blankwright inspect: ${title}`;
    return {
      title,
      mark,
      mended: flags['mend'] === true ? mendedCopy(found, options, title, mark) : undefined,
      picture: flags['svg'] === true ? markedSvg(found, mark) : undefined,
    };
  });
  const files = made.flatMap(({ title, mark, mended, picture }): MarkedFile[] => [
    ...(mended?.ok === true ? [{ name: `${title}-mended.dxf`, contents: mended.text, mark }] : []),
    ...(picture === undefined ? [] : [{ name: `${title}-inspected.svg`, contents: picture, mark }]),
  ]);
  const saved =
    files.length === 0
      ? []
      : saveAll(textOf(flags, 'out') ?? 'out', files, flags['force'] === true);
  let next = 0;
  return made.map(({ mended, picture }) => ({
    mended: mended?.ok === true ? { file: saved[next++] as string, changes: mended.changes } : null,
    unmended: mended?.ok === false ? mended.stops : null,
    picture: picture === undefined ? null : (saved[next++] as string),
  }));
};

interface Found {
  readonly file: string;
  readonly found: Inspected;
}

/**
 * One after the other, as each may take much memory. Every file that cannot be looked at is told at
 * once.
 */
const inspectAll = async (files: readonly string[], options: InspectOptions): Promise<Found[]> => {
  const problems: InputProblem[] = [];
  const inspected: Found[] = [];
  for (const file of files) {
    const found = inspectDxf(bytesOfDxf(file), options);
    if (found.ok) inspected.push({ file, found });
    else
      problems.push({
        input: 'file',
        given: `${file}, but ${found.reason}`,
        allowed: 'a DXF file in text form',
        mend: found.mend,
      });
  }
  if (problems.length > 0) throw new WrongInput(problems);
  return inspected;
};

const optionsOf = async (flags: Flags, firstFile: string): Promise<InspectOptions> => {
  const problems: InputProblem[] = [];
  const length = <T>(name: string, most: number, otherwise: T): number | T => {
    const text = textOf(flags, name);
    if (text === undefined) return otherwise;
    const parsed = parseLength(text);
    if (parsed.ok && parsed.value > 0.0001 && parsed.value <= most) return parsed.value;
    problems.push({
      input: name,
      given: `'${text}'`,
      allowed: `a length over 0 and up to ${most} mm`,
      ...(parsed.ok ? {} : { mend: parsed.reason }),
    });
    return otherwise;
  };
  const material = findMaterial(textOf(flags, 'material') ?? 's275');
  if (!material.ok)
    problems.push({
      input: 'material',
      given: `'${textOf(flags, 'material') ?? ''}'`,
      allowed: 'a material of blankwright materials',
      mend: material.reason,
    });
  const lengths = {
    thicknessMm: length('thickness', 100, undefined),
    gapMm: length('gap', 20, 1),
    shortMm: length('short', 100, 0.1),
    errorMm: length('error', 1, 0.01),
  };
  const units = choiceOf(flags, 'units', Object.keys(UNSTATED_UNITS) as UnstatedUnit[]);
  if (problems.length > 0 || !material.ok) throw new WrongInput(problems);
  const shopFile = findShopFile(textOf(flags, 'shop'), firstFile);
  return {
    ...lengths,
    units,
    material: material.value.family,
    shop: shopFile === undefined ? DEFAULT_SHOP : await readShopFile(shopFile),
  };
};
