/**
 * Books the layout of a file in a shop file, or takes the last booking back, as the command does:
 * `take FILE SHOP`, `back SHOP`. Prints what was booked or the problems, and ends as the command.
 */
import { readFileSync } from 'node:fs';
import { DiskRefused, EXIT, WrongInput } from '../../src/cli/failure.ts';
import { takeBackLaid, takeLaid } from '../../src/cli/lay/take.ts';
import type { LaidSheet } from '../../src/model/laid.ts';
import type { Region } from '../../src/geometry/region.ts';

interface Layout {
  readonly sheets: readonly LaidSheet[];
  readonly outlines: readonly (readonly [string, Region])[];
}

const run = async ([what, ...files]: readonly string[]): Promise<unknown> => {
  if (what === 'back') return takeBackLaid(files[0]);
  const { sheets, outlines } = JSON.parse(readFileSync(files[0] ?? '', 'utf8')) as Layout;
  return takeLaid({ shopFile: files[1], sheets, outlines: new Map(outlines) });
};

const tell = (text: string, code: number): void => {
  process.stdout.write(`${text}\n`);
  process.exitCode = code;
};

run(process.argv.slice(2)).then(
  (done) => tell(JSON.stringify(done), EXIT.made),
  (error: unknown) => {
    if (error instanceof WrongInput)
      tell(JSON.stringify({ problems: error.problems }), EXIT.wrongInput);
    else if (error instanceof DiskRefused) tell(error.message, EXIT.disk);
    else tell(String(error), 70);
  },
);
