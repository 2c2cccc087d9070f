import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { figure } from '../../figures.ts';
import { type MadePart, makeParts } from '../../job.ts';
import type { Console } from '../console.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { loadFamily } from '../load-family.ts';
import { readInputsFile } from '../read-inputs-file.ts';
import { savedParts } from '../save-parts.ts';

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
  const parts: MadePart[] = [];
  for (const name of names) parts.push(...(await partsOf(join(FOLDER, name))));
  const result = savedParts(parts, out, force);
  if (json) {
    print(JSON.stringify(result));
    return EXIT.made;
  }
  print(`Made parts of the vineyard cart, bends by din6935:\n${parts.map(line).join('\n')}`);
  print(`${result.parts.flatMap((p) => p.files).length} files in ${out}: a DXF to cut and an SVG to look at for each.`);
  return EXIT.made;
};

const partsOf = async (path: string): Promise<readonly MadePart[]> => {
  const { family, ...inputs } = await readInputsFile(path);
  const made = makeParts(await loadFamily(String(family)), inputs, { cutOnly: false, dxfVersion: 'r2000' });
  if (!made.ok) throw new WrongInput(made.problems);
  return made.parts;
};

const line = ({ result: { name, blank, material, bends }, stopped }: MadePart): string => {
  if (stopped || blank === null) throw new Error(`the demo part ${name} cannot be made`);
  const sheet = `${material.id.padEnd(10)} ${`${figure(material.thicknessMm)} mm`.padEnd(6)}`;
  const size = `${figure(blank.widthMm, 1)} x ${figure(blank.heightMm, 1)} mm`;
  return `  ${name.padEnd(18)} ${sheet}  blank ${size.padEnd(18)} ${bends.length} ${bends.length === 1 ? 'fold' : 'folds'}`;
};
