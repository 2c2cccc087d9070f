import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
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

/**
 * Loaded ahead of what is run, and on both sides of a pair alike: Node does not tell what a child
 * took of the processor, so the child tells it itself, down a pipe of its own, as the last that it
 * does. What is left to do after that is left out.
 */
const TELLS_ITS_OWN = `process.on('exit', () => {
  const { user, system } = process.cpuUsage();
  require('node:fs').writeSync(3, String((user + system) / 1000));
});`;

/** How long the whole command takes, from the shell and back, against Node doing nothing. */
export default (): Answer[] => {
  const folder = mkdtempSync(join(tmpdir(), 'bench-'));
  const teller = join(folder, 'tells-its-own.cjs');
  writeFileSync(teller, TELLS_ITS_OWN);
  const question = (line: string, env: NodeJS.ProcessEnv, where = ''): Answer => ({
    question: `blankwright ${line.split(' ').slice(0, 2).join(' ')}${where}`,
    ...compare(
      spawned(teller, ['dist/blankwright.cjs', ...line.split(' ')], env),
      spawned(teller, ['-e', '0'], env),
      25,
    ),
    against: 'node -e 0',
    aim: { on: 'cpuRatio', atMost: 1.5 },
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
  (teller: string, args: readonly string[], env: NodeJS.ProcessEnv): Timed =>
  () => {
    const start = performance.now();
    const { status, stderr, output } = spawnSync(process.execPath, ['--require', teller, ...args], {
      encoding: 'utf8',
      env,
      stdio: ['ignore', 'pipe', 'pipe', 'pipe'],
    });
    const wallMs = performance.now() - start;
    const cpuMs = Number(output[3]);
    if (status !== 0 || !(cpuMs > 0)) throw new Error(`${args.join(' ')}: ${stderr}`);
    return { wallMs, cpuMs };
  };
