import { existsSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { calibrateTube } from '../use/calibrate/calibrate-tube.ts';
import { CALIBRATE_TUBE_HOW_TO, calibrateTubeText } from '../use/calibrate/calibrate-tube-text.ts';
import { shopWithFormer } from '../use/calibrate/shop-with-former.ts';
import type { TubeCalibration } from '../contract/tube-calibration.ts';
import type { Console } from './console.ts';
import { EXIT, WrongInput } from './failure.ts';
import { readTextFile } from './read-text-file.ts';
import { saveAll } from './save.ts';
import { readShopText } from './shop-file.ts';
import { inLines } from './terminal.ts';

/**
 * `calibrate tube`: springback and radius of a tube bender from test bends. JSON: `TubeCalibration`.
 * Without a file it tells how to make and measure them.
 */
export const runCalibrateTube = async (
  { file, save, json }: { file: string | undefined; save: string | undefined; json: boolean },
  { out }: Console,
): Promise<number> => {
  if (file === undefined) {
    out(json ? JSON.stringify({ howTo: CALIBRATE_TUBE_HOW_TO }) : CALIBRATE_TUBE_HOW_TO);
    return EXIT.made;
  }
  const text = await readTextFile(file, {
    input: 'bends',
    allowed: 'a YAML or JSON file of test bends',
    tooLarge: 'give the bends of one former only',
  });
  const found = calibrateTube(text);
  if (!found.ok) throw new WrongInput(found.problems);
  const told: TubeCalibration =
    save === undefined
      ? found.result
      : { ...found.result, saved: await savedIn(save, found.result) };
  out(json ? JSON.stringify(told) : inLines(calibrateTubeText(told)));
  return EXIT.made;
};

/** Writes it into a shop file, which is made where there is none yet. */
const savedIn = async (path: string, found: TubeCalibration): Promise<string> => {
  const contents = shopWithFormer(existsSync(path) ? await readShopText(path) : undefined, found);
  // The file was read and checked before: it is the user's own and meant to be written.
  const [saved] = saveAll(dirname(path), [{ name: basename(path), contents, mark: '' }], true);
  return saved as string;
};
