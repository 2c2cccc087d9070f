import { findingLine } from '../../model/finding-line.ts';
import {
  calibrate as fitAll,
  type Calibrated,
  toShopBend,
  withBends,
} from '../../calibrate/calibrate.ts';
import type { Estimate } from '../../calibrate/fit.ts';
import { readStrips } from '../../calibrate/read.ts';
import { figure } from '../../text/figures.ts';
import { stopAtDeg } from '../../bending/springback.ts';
import type { Console } from '../console.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { type FlagSpecs, textOf, wordOf } from '../flags.ts';
import { readTextFile } from '../read-text-file.ts';
import { askStrips, standardDialogue } from '../ask-strips.ts';
import { saveBends } from '../save-bends.ts';
import { flagsOf } from '../flags-of.ts';
import type { RunCommand } from './index.ts';

export const CALIBRATE_USAGE = 'calibrate [STRIPS.yaml|STRIPS.csv]';

export const CALIBRATE_FLAGS = {
  ask: {
    type: 'boolean',
    describe: 'Ask for the strips one by one and add them to the file first',
  },
  save: {
    type: 'string',
    describe:
      'Shop file to write what was found to, under material, thickness and tool; made when there is none',
  },
} as const satisfies FlagSpecs;

export interface CalibrateRequest {
  readonly file: string | undefined;
  readonly save: string | undefined;
  readonly ask: boolean;
}

/** The JSON document of `calibrate FILE --json`. */
export interface CalibrateResult {
  readonly bends: readonly (Calibrated & { readonly stopFor90Deg: number | null })[];
  readonly saved: string | null;
}

/**
 * `calibrate`: K and inside radius out of measured strips, with how far off they may be. Without a
 * file: how to make and measure the strips. Strips that do not say it end as a part that cannot be
 * made does.
 */
export const calibrate = async (
  { file, save, ask }: CalibrateRequest,
  json: boolean,
  { out }: Console,
): Promise<number> => {
  if (ask) {
    if (file === undefined)
      throw new WrongInput([
        {
          input: '--ask',
          given: 'no file',
          allowed:
            'the name of the file that keeps the strips: blankwright calibrate strips.yaml --ask',
        },
      ]);
    const dialogue = standardDialogue();
    await askStrips(file, dialogue);
    dialogue.close();
  }
  if (file === undefined) {
    out(json ? JSON.stringify({ howTo: HOW_TO }) : HOW_TO);
    return EXIT.made;
  }
  const text = await readTextFile(file, {
    input: 'strips',
    allowed: 'a YAML or CSV file of measured strips',
    tooLarge: 'give the strips of one machine only',
  });
  const read = readStrips(text, /\.csv$/i.test(file) ? 'csv' : 'yaml');
  if (!read.ok) throw new WrongInput(read.problems);
  const found = fitAll(read.strips);
  const fresh = found.flatMap((lot) => toShopBend(lot) ?? []);
  const saved =
    save === undefined || fresh.length === 0
      ? null
      : await saveBends(save, (known) => withBends(known, fresh));
  const result: CalibrateResult = {
    bends: found.map((lot) => ({ ...lot, stopFor90Deg: stopFor90(lot) ?? null })),
    saved,
  };
  out(
    json
      ? JSON.stringify(result)
      : [
          ...found.map(lotText),
          ...(saved === null ? [] : [`Written to ${saved}: --rule measured goes by it.`]),
        ].join('\n'),
  );
  return found.every((lot) => lot.fit !== undefined) ? EXIT.made : EXIT.stopped;
};

const stopFor90 = ({ fit }: Calibrated): number | undefined =>
  fit?.springback && stopAtDeg(90, { factor: fit.springback.value });

const lotText = (lot: Calibrated): string => {
  const { fit, hem } = lot;
  const head = `${lot.material}, ${figure(lot.thicknessMm)} mm, ${lot.machine}, tool ${lot.tool}${hem === undefined ? '' : `, ${hem} hems`}: ${lot.strips} ${lot.strips === 1 ? 'strip' : 'strips'}`;
  const told = lot.findings.map((f) => `  ${findingLine(f)}`);
  if (fit === undefined) return [head, ...told].join('\n');
  const stopAt = stopFor90(lot);
  return [
    head,
    hem === undefined
      ? `  K ${shown(fit.kFactor, 3)}, inside radius ${shown(fit.insideRadiusMm, 2)} mm, from bends of ${fit.anglesDeg.map((a) => figure(a, 1)).join(' to ')} degrees; one goes with the other`
      : `  K ${shown(fit.kFactor, 3)} with inside radius ${figure(fit.insideRadiusMm.value)} mm`,
    `  deduction measured: ${fit.deductions.map((d) => `${figure(d.deductionMm)} mm at ${figure(d.angleDeg, 1)} degrees (${d.strips} ${d.strips === 1 ? 'strip' : 'strips'})`).join(', ')}`,
    ...(fit.squareMm === undefined
      ? []
      : [`  a bend of 90 degrees takes ${shown(fit.squareMm, 2)} mm off the sum of its legs`]),
    ...(stopAt === undefined ? [] : [`  stop at ${figure(stopAt, 1)} for 90 degrees`]),
    ...told,
    `  About ${fit.toHalve} more strips would halve the doubt.`,
  ].join('\n');
};

const shown = ({ value, within95 }: Estimate, decimals: number): string =>
  `${figure(value, decimals)} +-${figure(within95, decimals)} (95 times in 100)`;

const HOW_TO = `Measuring your own bends

1. Cut strips of the sheet, all from one piece, across the grain. Three of each angle are a start; different
   angles tell K from the radius:
     blankwright make test-strip --material dc01 --thickness 1.5 --bend-angle 90 --quantity 3 --name strip-90
     blankwright make test-strip --material dc01 --thickness 1.5 --bend-angle 45 --quantity 2 --name strip-45
     blankwright make test-strip --material dc01 --thickness 1.5 --bend-angle 120 --quantity 3 --name strip-120
2. Number them, and measure each with a calliper before folding: its thickness and its length.
3. Fold them with the tool you want to know, and write down where you stopped the leaf.
4. Measure after folding: the angle the metal was turned, and both legs on the outside, from the free edge to where
   the outside faces meet (lay two rulers on them); over 90 degrees to the outermost point of the bend. A radius
   gauge in the bend helps.
5. Write them down, as strips.yaml:
     material: dc01
     thickness: 1.48
     machine: folder
     tool: nose R1.5
     noseRadius: 1.5
     strips:
       - { flat: 150, legA: 76.4, legB: 76.2, angle: 90, stopAt: 91.5, radius: 1.5 }
       - { flat: 150, legA: 75.3, legB: 75.1, angle: 45.5, stopAt: 46 }
   or as strips.csv with the heading material,thickness,machine,tool,noseRadius,flat,legA,legB,angle,hem,gap,stopAt,radius
   Strips folded right over say hem: closed, open (with gap: what it leaves inside) or teardrop (with the radius of its
   loop) in place of the angle; both legs go to the outermost point of the hem, leg B is the one folded over:
       - { flat: 100, legA: 80.2, legB: 20.1, hem: closed }
6. blankwright calibrate strips.yaml --save shop.yaml`;

export const run: RunCommand = async (args, console) => {
  const flags = await flagsOf(args, console, {
    usage: CALIBRATE_USAGE,
    flags: CALIBRATE_FLAGS,
    words: 2,
  });
  return flags === undefined
    ? EXIT.made
    : calibrate(
        { file: wordOf(flags), save: textOf(flags, 'save'), ask: flags['ask'] === true },
        flags['json'] === true,
        console,
      );
};
