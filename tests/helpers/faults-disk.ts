/**
 * Loaded before the command by `faults.ts`: at its nth call that changes the disk, the process is
 * killed, somebody else changes the folder, or the disk refuses from there on. FAULT_AT counts from
 * 1, 0 for none. FAULT_KIND is killed-before, killed-half or killed-after; removed or replaced, for
 * FAULT_PLACE; or the code of a refusal, where EPERM is for second names of files alone. The number
 * of calls is written to FAULT_COUNT when the process ends.
 */
import fs from 'node:fs';

type Call = (...args: readonly unknown[]) => unknown;

const { FAULT_AT = '0', FAULT_KIND = '', FAULT_COUNT = '', FAULT_PLACE = '' } = process.env;
const at = Number(FAULT_AT);
const isKilling = FAULT_KIND.startsWith('killed');
const own = { ...fs };
let calls = 0;
// Some of these functions call one another.
let isWithin = false;

/** The calls that change the disk, each with a test of its arguments. */
const CHANGES: Readonly<Record<string, (args: readonly unknown[]) => boolean>> = {
  openSync: ([, flags]) => typeof flags === 'string' && /[wax+]/.test(flags),
  writeFileSync: () => true,
  // Printing does not count.
  writeSync: ([file]) => file !== 1 && file !== 2,
  copyFileSync: () => true,
  mkdirSync: () => true,
  linkSync: () => true,
  renameSync: () => true,
  unlinkSync: () => true,
  rmdirSync: () => true,
};

/**
 * Calls that need room: a full disk still removes and renames, while one that is read-only does
 * nothing.
 */
const NEED_ROOM = new Set([
  'openSync',
  'writeFileSync',
  'writeSync',
  'copyFileSync',
  'mkdirSync',
  'linkSync',
]);

const halfOf = (contents: string | Uint8Array): Buffer => {
  const bytes = Buffer.from(contents as string);
  return bytes.subarray(0, Math.floor(bytes.length / 2));
};

/** Does as much of a call as is done when it is interrupted. */
const half = (name: string, args: readonly unknown[]): void => {
  if (name === 'writeFileSync')
    own.writeFileSync(args[0] as number, halfOf(args[1] as string), args[2] as object);
  else if (name === 'writeSync') own.writeSync(args[0] as number, halfOf(args[1] as string));
  else if (name === 'copyFileSync')
    own.writeFileSync(args[1] as string, halfOf(own.readFileSync(args[0] as string)), {
      flag: 'wx',
    });
};

/** Changes made by somebody else meanwhile: removes a folder, or puts a file in its place. */
const meddle = (): void => {
  own.rmSync(FAULT_PLACE, { recursive: true, force: true });
  if (FAULT_KIND === 'replaced') own.writeFileSync(FAULT_PLACE, 'mine');
};

const refuse = (name: string, args: readonly unknown[]): void => {
  const isFull = FAULT_KIND === 'ENOSPC';
  if (isFull && !NEED_ROOM.has(name)) return;
  if (FAULT_KIND === 'EPERM' && name !== 'linkSync') return;
  if (isFull) half(name, args);
  throw Object.assign(new Error(`${FAULT_KIND}: made to fail`), { code: FAULT_KIND });
};

/** Makes the fault happen before a call that counts. */
const before = (name: string, args: readonly unknown[]): void => {
  if (isKilling && calls === at) {
    if (FAULT_KIND === 'killed-half') half(name, args);
    if (FAULT_KIND !== 'killed-after') process.kill(process.pid, 'SIGKILL');
  } else if (FAULT_PLACE !== '') {
    if (calls === at) meddle();
  } else if (!isKilling && at > 0 && calls >= at) refuse(name, args);
};

for (const [name, counts] of Object.entries(CHANGES)) {
  const call = own[name as 'unlinkSync'] as Call;
  const faulty: Call = (...args) => {
    if (isWithin || !counts(args)) return call(...args);
    isWithin = true;
    calls += 1;
    try {
      before(name, args);
      return call(...args);
    } finally {
      if (isKilling && calls === at) process.kill(process.pid, 'SIGKILL');
      isWithin = false;
    }
  };
  Object.assign(fs, { [name]: faulty });
}

if (FAULT_COUNT !== '') process.on('exit', () => own.writeFileSync(FAULT_COUNT, String(calls)));
