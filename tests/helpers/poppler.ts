import { spawnSync } from 'node:child_process';

/** Poppler's commands (Debian package poppler-utils): a PDF reader from outside the project. */
export const hasPoppler = spawnSync('pdftoppm', ['-v']).status === 0;

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** A page as dots, black or not. */
export interface Ink {
  readonly width: number;
  readonly height: number;
  readonly isInk: (x: number, y: number) => boolean;
  /**
   * The outermost dots with ink in a part of the page, edges included; `undefined` where there is
   * none.
   */
  readonly box: (within?: Box) => Box | undefined;
}

/** A page of a PDF, drawn by Poppler at a number of dots an inch without smoothing. */
export const inkOf = (file: string, page: number, dotsPerInch: number): Ink => {
  const run = spawnSync(
    'pdftoppm',
    [
      '-gray',
      '-aa',
      'no',
      '-aaVector',
      'no',
      '-r',
      String(dotsPerInch),
      '-f',
      String(page),
      '-l',
      String(page),
      file,
    ],
    { maxBuffer: 1 << 28 },
  );
  if (run.status !== 0) throw new Error(run.stderr.toString());
  const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(run.stdout.subarray(0, 60).toString('latin1'));
  if (head === null) throw new Error('not a grey picture');
  const [width, height] = [Number(head[1]), Number(head[2])];
  const dots = run.stdout.subarray(head[0].length);
  const isInk = (x: number, y: number): boolean => (dots[y * width + x] ?? 255) < 128;
  const box = (
    within: Box = { left: 0, top: 0, right: width - 1, bottom: height - 1 },
  ): Box | undefined => {
    let found: Box | undefined;
    for (let y = within.top; y <= within.bottom; y += 1) {
      for (let x = within.left; x <= within.right; x += 1) {
        if (!isInk(x, y)) continue;
        found =
          found === undefined
            ? { left: x, right: x, top: y, bottom: y }
            : {
                left: Math.min(found.left, x),
                right: Math.max(found.right, x),
                top: found.top,
                bottom: y,
              };
      }
    }
    return found;
  };
  return { width, height, isInk, box };
};
