import { basename, extname } from 'node:path';
import { findMaterial } from '../../data/materials.ts';
import { DEFAULT_SHOP } from '../../data/shop-default.ts';
import type { InputProblem } from '../../forms/problem.ts';
import type { Aim } from '../../lay/sheets/request.ts';
import type { Shop } from '../../model/shop.ts';
import { regionOfDxf } from '../../stock/dxf-region.ts';
import { drawingOf } from '../../use/lay/drawn-region.ts';
import { type FoundLayout, laidSheets, layResult, usedBy } from '../../use/lay/lay-result.ts';
import { filesOfSheets } from '../../use/lay/lay-job.ts';
import type { LaidOptions } from '../../use/laid/laid-files.ts';
import { takenBackText, takenText } from '../../use/stock/taken-text.ts';
import type { TakenStock } from '../../contract/stock.ts';
import type { LaidSheet } from '../../model/laid.ts';
import { type KeepOptions, KEEPS } from '../../stock/remnants.ts';
import { choiceOf } from '../option-flags.ts';
import { saveNamed } from '../save.ts';
import {
  type LayAsked,
  type LayBlank,
  layGroups,
  layGroupsOfJob,
  onWhatIsLeft,
  type ToLay,
} from '../../use/lay/lay-groups.ts';
import { layText } from '../../use/lay/lay-text.ts';
import type { Console } from '../console.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { type Flags, textOf } from '../flags.ts';
import { loadJob } from '../job/load-job.ts';
import { bytesOfDxf } from '../read-text-file.ts';
import { findShopFile, readShopFile } from '../shop-file.ts';
import { inLines } from '../terminal.ts';
import { layAskedOf, lengthOf, threadsOf } from './lay-flags.ts';
import { readStock } from './read-stock.ts';
import { searchStock, STOPPED, stopOnInterrupt, type Threads } from './run-threads.ts';

/** `lay JOB` and `lay --parts FILE.dxf x3`: parts on the stock of the shop. */
export const runLay = async (
  words: readonly string[],
  flags: Flags,
  console: Console,
): Promise<number> => {
  const asked = layAskedOf(flags);
  const threads = threadsOf(flags);
  const keep = keepOf(flags);
  const given = await (flags['parts'] === true
    ? partsOf(words, flags, asked)
    : jobOf(words[0] as string, flags, asked));
  assertNamed(given.toLay, asked);
  const isJson = flags['json'] === true;
  const { found, isStopped } = await searchAll(given.toLay, threads, (line) => {
    // It is told to whom waits, and not into a file.
    if (!isJson && process.stderr.isTTY) console.err(line);
  });
  if (isStopped && !isJson) console.err(STOPPED);
  const { files, filesOf } = await filesOfSheets(given.toLay, found, given);
  const folder = textOf(flags, 'out') ?? 'laid';
  const pathOf = saveNamed(folder, files, flags['force'] === true);
  const sheets = laidSheets(found);
  // Where nothing is laid there is nothing to book, and the shop file stays as it is.
  const isTaken = flags['take'] === true && sheets.length > 0;
  const taken = isTaken ? await taking(given, sheets, flags, keep) : null;
  const withPaths = new Map(
    [...filesOf].map(([name, one]) => [name, { ...one, paths: one.paths.map(pathOf) }]),
  );
  const result = layResult(given.toLay, found, withPaths, taken);
  if (isJson) console.out(JSON.stringify(result));
  else {
    console.out(inLines(layText(result, sheets, given.printUnits)));
    if (files.length > 0) console.out(`Written to ${folder}: a DXF, SVG and PDF of each sheet.`);
    if (taken !== null) console.out(inLines(takenText(taken, given.printUnits)));
  }
  return result.left.length > 0 ? EXIT.stopped : EXIT.made;
};

const keepOf = (flags: Flags): KeepOptions => ({ keep: choiceOf(flags, 'keep', KEEPS) });

const taking = async (
  { shopFile, toLay }: Given,
  sheets: readonly LaidSheet[],
  flags: Flags,
  keep: KeepOptions,
): Promise<TakenStock> => {
  const { takeLaid } = await import('./take.ts');
  const again = flags['again'] === true;
  return takeLaid({ shopFile, sheets, outlines: toLay.outlines, keep, again });
};

/** `lay --take-back`: what was booked last is taken back. */
export const runTakeBack = async (flags: Flags, console: Console): Promise<number> => {
  const { takeBackLaid } = await import('./take.ts');
  const back = await takeBackLaid(findShopFile(textOf(flags, 'shop'), 'job.yaml'));
  console.out(flags['json'] === true ? JSON.stringify(back) : inLines(takenBackText(back)));
  return EXIT.made;
};

/** What is laid, and on whose stock. */
interface Given extends LaidOptions {
  readonly toLay: ToLay;
  readonly shop: Shop;
  readonly shopFile: string | undefined;
}

const jobOf = async (file: string, flags: Flags, asked: LayAsked): Promise<Given> => {
  const loaded = await loadJob(file, textOf(flags, 'shop'));
  const { shop, shopFile } = loaded;
  const stock = await readStock(shopFile, shop);
  const { title, printUnits } = loaded.job;
  return { toLay: layGroupsOfJob(loaded, stock, asked), job: title, printUnits, shop, shopFile };
};

const partsOf = async (words: readonly string[], flags: Flags, asked: LayAsked): Promise<Given> => {
  const shopFile = findShopFile(textOf(flags, 'shop'), words[0] as string);
  const shop = shopFile === undefined ? DEFAULT_SHOP : await readShopFile(shopFile);
  const blanks = blanksOf(words, flags);
  const toLay = layGroups(blanks, shop, await readStock(shopFile, shop), asked);
  const job = blanks.map(({ name }) => name).join(', ');
  return { toLay: { ...toLay, left: [], findings: [] }, job, shop, shopFile };
};

/** The outlines of DXF files, each with how many of it are wanted; 1 where that is not said. */
const blanksOf = (words: readonly string[], flags: Flags): LayBlank[] => {
  const material = findMaterial(textOf(flags, 'material') ?? 's275');
  const thicknessMm = lengthOf(flags, 'thickness') ?? 0;
  const problems: InputProblem[] = [];
  if (!material.ok)
    problems.push({
      input: '--material',
      given: `'${textOf(flags, 'material') ?? ''}'`,
      allowed: 'a material of blankwright materials',
      mend: material.reason,
    });
  if (thicknessMm === 0)
    problems.push({
      input: '--thickness',
      given: textOf(flags, 'thickness') ?? 'nothing',
      allowed: 'the thickness of the sheet, over 0 mm',
    });
  const blanks = words.flatMap((word, at): LayBlank[] => {
    if (isCount(word) && at > 0) return [];
    const quantity = Number(words[at + 1]?.match(COUNT)?.[1] ?? 1);
    const read = regionOfDxf(bytesOfDxf(word));
    if (!read.ok) {
      problems.push({ input: word, given: read.why, allowed: ONE_OUTLINE, mend: read.mend });
      return [];
    }
    if (!material.ok) return [];
    const name = basename(word, extname(word));
    const drawing = drawingOf(name, read.region);
    return [
      { name, quantity, material: material.value, thicknessMm, drawing, grain: 'free' as const },
    ];
  });
  if (problems.length > 0) throw new WrongInput(problems);
  return blanks;
};

const ONE_OUTLINE = 'a DXF file that draws one closed outline, with its holes';

const COUNT = /^x(\d{1,12})$/;
const isCount = (word: string): boolean => COUNT.test(word);

/** Names that no part has are a mistake in writing. */
const assertNamed = ({ drawings, left }: ToLay, { first, together }: LayAsked): void => {
  const names = [...drawings.keys(), ...left.map(({ name }) => name)];
  const problems = [first, ...together].flatMap((asked, k) =>
    asked
      .filter((name) => !names.includes(name))
      .map((name) => ({
        input: k === 0 ? '--first' : '--together',
        given: `'${name}'`,
        allowed: `names of parts: ${names.slice(0, 20).join(', ')}`,
      })),
  );
  if (problems.length > 0) throw new WrongInput(problems);
};

/** One material after the other, each for the time that is given. */
const searchAll = async (
  { groups }: ToLay,
  threads: Threads,
  tell: (line: string) => void,
): Promise<{ readonly found: readonly FoundLayout[]; readonly isStopped: boolean }> => {
  const { stop, isStopped, release } = stopOnInterrupt();
  const found: FoundLayout[] = [];
  try {
    for (const group of groups) {
      const called = `${group.material.id} ${group.thicknessMm} mm`;
      const request = onWhatIsLeft(group, usedBy(found));
      const { laid, seed } = await searchStock(request, threads, stop, (aim) =>
        tell(`${called}: ${aimText(aim)}`),
      );
      found.push({ group: { ...group, request }, laid, seed });
    }
  } finally {
    release();
  }
  return { found, isStopped: isStopped() };
};

const aimText = ({ left, cost, cleanMm2 }: Aim): string =>
  [
    `sheets count ${Math.round(cost * 100) / 100}`,
    ...(left > 0 ? [`${left} left out`] : []),
    `${(cleanMm2 / 1e6).toFixed(2)} m2 clean in one piece`,
  ].join(', ');
