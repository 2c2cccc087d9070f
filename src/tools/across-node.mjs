// Runs the packed command on several versions of Node, one after the other as a machine meets them
// that is upgraded and set back, with one folder for compiled code between them, and says where any
// of them fails or writes other bytes than the rest. The versions come from the npm registry, into
// a folder of their own.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

/** Three patches of the oldest release that is promised, and the two after it that are kept up. */
const VERSIONS = ['20.19.0', '20.19.6', '20.20.1', '22.22.2', '24.14.1'];

const JOB = `title: across
defaults: { material: s235, thickness: 2, papers: [card, sheet, model] }
measurements: { tankWidth: 412 }
parts:
  - { family: bracket-angle, name: seat post, hand: both, inputs: { legA: 60, legB: 40, width: 80, thickness: 3, holesA: '35,20,M8' } }
  - { family: duct-transition, name: fan outlet, inputs: { width: 180, depth: 120, diameter: 100, length: 150, thickness: 1 } }
  - { family: baffle, inputs: { width: tankWidth - 2*6, height: 240 } }
`;

const COMMANDS = [
  ['--version'],
  [
    'make',
    'bracket-zed',
    '--flange-a',
    '30',
    '--offset',
    '42',
    '--flange-b',
    '30',
    '--width',
    '120',
    '--thickness',
    '2',
    '--dxf-version',
    'r12',
    '--fit',
    '--json',
    '--out',
    'make',
  ],
  [
    'plan',
    'bracket-channel',
    '--flange-a',
    '50',
    '--web',
    '60',
    '--flange-b',
    '50',
    '--width',
    '80',
    '--thickness',
    '2',
    '--out',
    'plan',
  ],
  ['job', 'across.job.yaml', '--out', 'job', '--all'],
];

/**
 * V8 has other sines from Node 24 on, which differ in the last bit. No file to cut or print from
 * shows that; figures in JSON are written out in full.
 */
const NOISE = 1e-9;

const folder = mkdtempSync(join(tmpdir(), 'blankwright-across-'));
try {
  process.exitCode = main() ? 0 : 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}

function main() {
  const command = installed();
  const nodes = nodesOf(VERSIONS);
  // Each of them once with what the one before has left in the cache, then all again with what all
  // have left.
  const rounds = [1, 2].flatMap((round) => nodes.map((node) => ({ ...node, round })));
  const found = rounds.map(({ version, node, round }) => ({
    name: `Node ${version}, round ${round}`,
    ...outcomeOf(node, command),
  }));
  const first = found.find(({ failed }) => failed === undefined) ?? found[0];
  for (const { name, failed, files } of found)
    console.log(
      `${name}: ${failed ?? differenceOf(first.files, files) ?? `as ${first.name}, ${Object.keys(files).length} files and answers`}`,
    );
  return found.every(
    ({ failed, files }) => failed === undefined && differenceOf(first.files, files) === undefined,
  );
}

/** The command out of the package, in a folder where nothing else is. */
function installed() {
  const at = join(folder, 'command');
  mkdirSync(at);
  const [{ filename }] = JSON.parse(
    run('npm', ['pack', '--json', '--pack-destination', folder], process.cwd()).replace(
      /^[^[]*/,
      '',
    ),
  );
  writeFileSync(join(at, 'package.json'), '{"private":true}');
  run(
    'npm',
    ['install', '--no-audit', '--no-fund', '--prefer-offline', join(folder, filename)],
    at,
  );
  return join(at, 'node_modules', '.bin', 'blankwright');
}

function nodesOf(versions) {
  const at = join(folder, 'nodes');
  const kind = `node-${process.platform}-${process.arch}`;
  mkdirSync(at);
  writeFileSync(join(at, 'package.json'), '{"private":true}');
  run(
    'npm',
    [
      'install',
      '--no-audit',
      '--no-fund',
      '--prefer-offline',
      '--no-bin-links',
      ...versions.map((version) => `node-${version}@npm:${kind}@${version}`),
    ],
    at,
  );
  return versions.map((version) => ({
    version,
    node: join(at, 'node_modules', `node-${version}`, 'bin', 'node'),
  }));
}

/** What all commands print and write on one Node, by name, or how the first of them failed. */
function outcomeOf(node, command) {
  const at = mkdtempSync(join(folder, 'run-'));
  writeFileSync(join(at, 'across.job.yaml'), JOB);
  const files = {};
  for (const args of COMMANDS) {
    const { status, signal, stdout, stderr } = spawnSync(node, [command, ...args], {
      cwd: at,
      encoding: 'utf8',
      env: { ...process.env, XDG_CACHE_HOME: join(folder, 'cache') },
    });
    if (status !== 0)
      return {
        failed: `${args[0]} ended with ${signal ?? status}: ${stderr.trim().slice(-200)}`,
        files,
      };
    files[`what ${args[0]} prints`] = args.includes('--json') ? JSON.parse(stdout) : stdout;
  }
  for (const entry of readdirSync(at, { recursive: true, withFileTypes: true })) {
    const path = join(entry.parentPath, entry.name);
    if (entry.isFile())
      files[path.slice(at.length + 1)] = entry.name.endsWith('.json')
        ? JSON.parse(readFileSync(path, 'utf8'))
        : createHash('sha256').update(readFileSync(path)).digest('hex');
  }
  return { failed: undefined, files };
}

function differenceOf(one, other) {
  const names = [...new Set([...Object.keys(one), ...Object.keys(other)])].filter(
    (name) => !isSame(one[name], other[name]),
  );
  return names.length === 0 ? undefined : `not the same: ${names.join(', ')}`;
}

function isSame(one, other) {
  if (typeof one === 'number' && typeof other === 'number')
    return Math.abs(one - other) <= NOISE * Math.max(1, Math.abs(one));
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null)
    return one === other;
  const names = Object.keys(one);
  return (
    names.length === Object.keys(other).length &&
    names.every((name) => isSame(one[name], other[name]))
  );
}

function run(program, args, cwd) {
  const { status, stdout, stderr } = spawnSync(program, args, {
    cwd: resolve(cwd),
    encoding: 'utf8',
    maxBuffer: 1 << 26,
  });
  if (status !== 0) throw new Error(`${program} ${args.join(' ')} failed:\n${stdout}${stderr}`);
  return stdout;
}
