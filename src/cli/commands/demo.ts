import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { figure } from '../../figures.ts';
import { type Made, type MadePart, makeParts } from '../../job.ts';
import type { MakeResult } from '../../result.ts';
import type { Console } from '../console.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { loadFamily } from '../load-family.ts';
import { readInputsFile } from '../read-inputs-file.ts';
import { savedParts } from '../save-parts.ts';
import { type FlagSpecs, textOf } from '../flags.ts';
import { flagsOf } from '../flags-of.ts';
import type { RunCommand } from './index.ts';

/** Inputs of the demo, beside the program. */
const FOLDER = fileURLToPath(new URL('../templates/demo/', import.meta.url));

export interface DemoRequest {
  readonly out: string;
  readonly force: boolean;
  readonly json: boolean;
}

/** `demo`: parts of a vineyard cart, from the input files under templates/demo. JSON: `MakeResult`, as of `make`. */
export const demo = async ({ out, force, json }: DemoRequest, { out: print }: Console): Promise<number> => {
  const names = (await readdir(FOLDER)).filter((name) => name.endsWith('.yaml')).sort();
  const made: (Made & { ok: true })[] = [];
  for (const name of names) made.push(await makeOne(join(FOLDER, name)));
  const parts = made.flatMap((m) => m.parts);
  const saved = savedParts(parts, out, force);
  if (json) {
    const result: MakeResult = { parts: saved, reports: made.flatMap((m) => m.reports) };
    print(JSON.stringify(result));
    return EXIT.made;
  }
  print(`Made parts of the vineyard cart:\n${parts.map(line).join('\n')}`);
  print(`${saved.flatMap((p) => p.files).length} files in ${out}: a DXF to cut and an SVG to look at for each.`);
  return EXIT.made;
};

const makeOne = async (path: string): Promise<Made & { ok: true }> => {
  const { family, ...inputs } = await readInputsFile(path);
  const made = makeParts(await loadFamily(String(family)), inputs, { cutOnly: false, dxfVersion: 'r2000' });
  if (!made.ok) throw new WrongInput(made.problems);
  return made;
};

const line = ({ result: { name, blank, material, bends }, stopped }: MadePart): string => {
  if (stopped || blank === null) throw new Error(`the demo part ${name} cannot be made`);
  const sheet = `${material.id.padEnd(10)} ${`${figure(material.thicknessMm)} mm`.padEnd(6)}`;
  const size = `${figure(blank.widthMm, 1)} x ${figure(blank.heightMm, 1)} mm`;
  return `  ${name.padEnd(26)} ${sheet}  blank ${size.padEnd(18)} ${bends.length} ${bends.length === 1 ? 'fold' : 'folds'}`;
};

const DEMO_FLAGS = {
  out: { type: 'string', describe: 'Folder to write to; out/ when left out' },
  force: { type: 'boolean', describe: 'Replace files that were not made for these parts' },
} as const satisfies FlagSpecs;

export const run: RunCommand = async (args, console) => {
  const flags = await flagsOf(args, console, { usage: 'demo', flags: DEMO_FLAGS, words: 1 });
  if (flags === undefined) return EXIT.made;
  return demo({ out: textOf(flags, 'out') ?? 'out', force: flags['force'] === true, json: flags['json'] === true }, console);
};
