import { spawn, spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { COMMAND, contents, tempFolder } from '../helpers/command.ts';
import { LAY_RESULT } from '../helpers/lay-contract.ts';
import { needsOutside } from '../helpers/needs-outside.ts';
import { hasPython } from '../helpers/packed.ts';

/** Two thicknesses, so that one is searched after the command was stopped in the other. */
const JOB = `
title: cart, stopped
defaults: { material: s235, thickness: 3 }
parts:
  - { family: plate, name: gusset, quantity: 14, inputs: { outline: '0,0; 260,0; 0,180' } }
  - { family: plate, name: cover, quantity: 5, inputs: { thickness: 2, outline: '0,0; 260,0; 260,90; 90,180; 0,180' } }
`;
const SHOP = `name: farm workshop
sheets:
  - { name: full sheet, length: 1000, width: 500, count: 9 }
`;

const folderWithJob = (): string => {
  const folder = tempFolder();
  writeFileSync(join(folder, 'job.yaml'), JOB);
  writeFileSync(join(folder, 'shop.yaml'), SHOP);
  // Loaded before the command: it tells when that begins and ends to listen for Ctrl+C.
  writeFileSync(
    join(folder, 'tell.cjs'),
    `const tell = (what) => (name) => { if (name === 'SIGINT') setImmediate(() => require('node:fs').writeSync(2, what)); };
process.on('newListener', tell('listens;'));
process.on('removeListener', tell('hears no more;'));`,
  );
  return folder;
};

/** Runs \`lay job.yaml\` as long as it likes, and sends Ctrl+C at each of some words of it. */
const stopped = (folder: string, flags: readonly string[], at: readonly string[]) => {
  const args = ['--require', './tell.cjs', COMMAND, 'lay', 'job.yaml', '--time', '2h', ...flags];
  const child = spawn(process.execPath, args, { cwd: folder });
  let [out, err] = ['', ''];
  child.stdout.on('data', (text: Buffer) => void (out += text.toString()));
  const left = [...at];
  child.stderr.on('data', (text: Buffer) => {
    err += text.toString();
    while (left[0] !== undefined && err.includes(left[0])) {
      left.shift();
      child.kill('SIGINT');
    }
  });
  return new Promise<{ code: number | null; signal: string | null; out: string; err: string }>(
    (done) => child.once('close', (code, signal) => done({ code, signal, out, err })),
  );
};

test('Ctrl+C ends with the best so far, whole and booked once', async () => {
  const folder = folderWithJob();
  const { code, out, err } = await stopped(folder, ['--json', '--take'], ['listens;']);
  expect([code, err.replaceAll(/listens;|hears no more;/g, '')]).toEqual([0, '']);
  const { sheets, left, taken } = LAY_RESULT.parse(JSON.parse(out));
  expect([left, sheets.flatMap(({ parts }) => parts).length]).toEqual([[], 19]);
  for (const file of sheets.flatMap(({ files }) => files)) {
    const text = readFileSync(join(folder, file), 'latin1').trimEnd();
    expect(
      text.endsWith(file.endsWith('.dxf') ? 'EOF' : file.endsWith('.svg') ? '</svg>' : '%%EOF'),
    ).toBe(true);
  }
  expect(readdirSync(join(folder, 'laid')).toSorted()).toEqual(
    sheets.flatMap(({ files }) => files.map((file) => file.slice('laid/'.length))).toSorted(),
  );
  expect(taken).not.toBeNull();
  expect(readFileSync(join(folder, 'shop.yaml'), 'utf8')).toContain(`count: ${9 - sheets.length}`);
});

test('Ctrl+C twice ends it there: nothing is booked, nothing half written', async () => {
  const folder = folderWithJob();
  const { code, signal, out } = await stopped(folder, ['--take'], ['listens;', 'hears no more;']);
  expect([code, signal, out]).toEqual([null, 'SIGINT', '']);
  expect(readFileSync(join(folder, 'shop.yaml'), 'utf8')).toBe(SHOP);
  expect(existsSync(join(folder, 'shop.taken.json'))).toBe(false);
  expect(contents(join(folder, 'laid'))).toEqual({});
});

/** Runs a command at a terminal, which only a pseudo-terminal is; Python has one. */
const AT_TERMINAL = `
import os, pty, sys
status = pty.spawn(sys.argv[1:])
sys.exit(os.waitstatus_to_exitcode(status))
`;

test('at a terminal each better layout is told on the way', (ctx) => {
  needsOutside(ctx, 'python3', hasPython);
  const folder = folderWithJob();
  const ran = spawnSync(
    'python3',
    ['-c', AT_TERMINAL, process.execPath, COMMAND, 'lay', 'job.yaml', '--steps', '40'],
    { cwd: folder, encoding: 'utf8' },
  );
  expect(ran.status).toBe(0);
  expect(ran.stdout).toMatch(/^s235 3 mm: sheets count \d+, \d\.\d\d m2 clean in one piece\r?$/m);
});
