import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Answer, compare, type Timed } from './measure.ts';

const MAKE =
  'make bracket-angle --leg-a 60 --leg-b 40 --width 80 --material s275 --thickness 3 --radius 3';

/**
 * Certificates of the place's own, which Node reads at every start, are two thirds of what it then
 * takes to do nothing.
 */
const { NODE_EXTRA_CA_CERTS: certificates, ...plain } = process.env;

/** How long the whole command takes, from the shell and back, against Node doing nothing. */
export default (): Answer[] => {
  const folder = mkdtempSync(join(tmpdir(), 'bench-'));
  const question = (line: string, env: NodeJS.ProcessEnv, where = ''): Answer => ({
    question: `blankwright ${line.split(' ').slice(0, 2).join(' ')}${where}`,
    ...compare(
      spawned(['dist/blankwright.cjs', ...line.split(' ')], env),
      spawned(['-e', '0'], env),
      25,
    ),
    against: 'node -e 0',
    aim: 'at most 1.5',
  });
  const make = `${MAKE} --out ${folder}`;
  try {
    return [
      ...[
        '--version',
        'bend --thickness 3 --radius 3 --angle 90',
        make,
        'describe bracket-angle --json',
      ].map((line) => question(line, process.env)),
      ...(certificates === undefined
        ? []
        : [question(make, plain, ', without NODE_EXTRA_CA_CERTS')]),
    ];
  } finally {
    rmSync(folder, { recursive: true });
  }
};

const spawned =
  (args: readonly string[], env: NodeJS.ProcessEnv): Timed =>
  () => {
    const start = performance.now();
    const { status, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8', env });
    if (status !== 0) throw new Error(`${args.join(' ')}: ${stderr}`);
    return performance.now() - start;
  };
