import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { figure } from '../../figures.ts';
import { makeParts } from '../../job.ts';
import type { Console } from '../console.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { loadFamily } from '../load-family.ts';
import { readInputsFile } from '../read-inputs-file.ts';
import { type MarkedFile, saveAll } from '../save.ts';

/** Inputs of the demo, beside the program. */
const FOLDER = fileURLToPath(new URL('../templates/demo/', import.meta.url));

/** `demo`: the brackets of a vineyard cart, from the input files under templates/demo into a folder. */
export const demo = async (out: string, force: boolean, { out: print }: Console): Promise<number> => {
  const names = (await readdir(FOLDER)).filter((name) => name.endsWith('.yaml')).sort();
  const files: MarkedFile[] = [];
  const lines: string[] = [];
  for (const name of names) {
    const { family, ...inputs } = await readInputsFile(join(FOLDER, name));
    const made = makeParts(await loadFamily(String(family)), inputs, { cutOnly: false, dxfVersion: 'r2000' });
    if (!made.ok) throw new WrongInput(made.problems);
    for (const part of made.parts) {
      const { blank, material, bends } = part.result;
      if (part.stopped || blank === null) throw new Error(`the demo part ${part.result.name} cannot be made`);
      files.push(...part.files().map((f) => ({ ...f, mark: part.mark })));
      const size = `${figure(blank.widthMm, 1)} x ${figure(blank.heightMm, 1)} mm`;
      lines.push(`  ${part.result.name.padEnd(18)} ${material.id.padEnd(10)} ${figure(material.thicknessMm)} mm  blank ${size.padEnd(18)} ${bends.length} ${bends.length === 1 ? 'fold' : 'folds'}`);
    }
  }
  await saveAll(out, files, force);
  print(`Made the brackets of the vineyard cart, bends by din6935:\n${lines.join('\n')}`);
  print(`${files.length} files in ${out}: a DXF to cut and an SVG to look at for each.`);
  return EXIT.made;
};
