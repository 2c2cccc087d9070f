#!/usr/bin/env node
// Starts the command, with code that an earlier run of the same program compiled where that can be
// had: it saves a third of the time of a start. Without it everything works the same.
//
// V8 looks at little more than its own version before it takes compiled code: code of another patch
// of Node runs until it crashes, and so does that of another text of equal length. So the code is
// kept under a name that says what it was made of and for, with a hash of itself, and only what
// this user wrote, and nobody else could have changed, is taken.
'use strict';
const { createHash } = require('node:crypto');
const {
  closeSync,
  constants,
  fstatSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  renameSync,
  statSync,
  unlinkSync,
  writeFileSync,
} = require('node:fs');
const { dirname, isAbsolute, join } = require('node:path');
const { cachedDataVersionTag } = require('node:v8');
const { Script } = require('node:vm');

const filename = join(__dirname, 'cli.cjs');

/** Each command has code of its own: what it does not run is not compiled. */
const [, word = 'help'] = /^(?:--)?([a-z]{1,20})$/.exec(process.argv[2] ?? '') ?? [];

const sha256 = (...texts) =>
  texts.reduce((hash, text) => hash.update(text), createHash('sha256')).digest('hex');

/**
 * Of all that compiled code depends on: the text, Node and the very program that it is, and V8's
 * flags with what it found the processor to be.
 */
const keyOf = (source) => {
  const { size, mtimeMs } = statSync(process.execPath);
  return sha256(
    JSON.stringify([
      process.versions,
      process.platform,
      process.arch,
      process.execPath,
      size,
      mtimeMs,
      cachedDataVersionTag(),
      word,
    ]),
    source,
  );
};

/** Where a user's programs keep what can be made again; `undefined` where that is not known. */
const cacheHome = ({ XDG_CACHE_HOME: asked = '', HOME: home = '', LOCALAPPDATA: local = '' }) => {
  if (isAbsolute(asked)) return asked;
  if (process.platform === 'win32') return isAbsolute(local) ? local : undefined;
  if (!isAbsolute(home)) return undefined;
  return process.platform === 'darwin' ? join(home, 'Library', 'Caches') : join(home, '.cache');
};

/**
 * Another user's file is not run, nor one that others may write to: with `sudo`, the folder may be
 * somebody else's. Elsewhere than on POSIX, folders of a user are closed to others.
 */
const isOwn = ({ uid, mode }) =>
  process.geteuid === undefined || (uid === process.geteuid() && (mode & 0o022) === 0);

/** What stands before compiled code in its file. A name alone could be given to any file. */
const headOf = (key, code) => `blankwright compiled code ${key} ${sha256(code)}\n`;

const readCode = (path, key) => {
  const file = openSync(path, constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0));
  try {
    const about = fstatSync(file);
    if (!about.isFile() || !isOwn(about)) return undefined;
    const bytes = readFileSync(file);
    const end = bytes.indexOf(10) + 1;
    const code = bytes.subarray(end);
    return bytes.toString('latin1', 0, end) === headOf(key, code) ? code : undefined;
  } finally {
    closeSync(file);
  }
};

/** So many are kept of each command: for whoever goes from one Node to another and back. */
const KEPT = 3;

const writeCode = (folder, name, key, code) => {
  // Nothing is made in a folder of another user: it would be in his way for good.
  let ground = folder;
  while (lstatSync(ground, { throwIfNoEntry: false }) === undefined) ground = dirname(ground);
  const about = lstatSync(ground);
  if (!about.isDirectory() || (ground === folder ? !isOwn(about) : !isOwn({ ...about, mode: 0 })))
    return;
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  const path = join(folder, name);
  const aside = `${path}.${process.pid}.part`;
  try {
    writeFileSync(aside, Buffer.concat([Buffer.from(headOf(key, code), 'latin1'), code]), {
      flag: 'wx',
      mode: 0o600,
    });
    renameSync(aside, path);
  } catch (error) {
    unlinkSync(aside);
    throw error;
  }
  const older = readdirSync(folder)
    .filter((other) => new RegExp(`^${word}-[0-9a-f]{64}\\.`).test(other))
    .map((other) => ({ other, at: lstatSync(join(folder, other)).mtimeMs }));
  for (const { other } of older.sort((a, b) => b.at - a.at).slice(KEPT))
    unlinkSync(join(folder, other));
};

/**
 * What `work` gives, or nothing: whatever is wrong with the folder or the disk is no concern of
 * whoever runs the command.
 */
const ifPossible = (work) => {
  try {
    return work();
  } catch {
    return undefined;
  }
};

const start = () => {
  const source = readFileSync(filename, 'latin1');
  // Node's own word for it: https://nodejs.org/api/cli.html#node_disable_compile_cache1
  const home = process.env.NODE_DISABLE_COMPILE_CACHE ? undefined : cacheHome(process.env);
  const key = home === undefined ? undefined : ifPossible(() => keyOf(source));
  const folder = key === undefined ? undefined : join(home, 'blankwright');
  const name = `${word}-${key}.code`;
  const cachedData =
    folder === undefined ? undefined : ifPossible(() => readCode(join(folder, name), key));
  const script = new Script(source, { filename, cachedData });
  if (folder !== undefined && (cachedData === undefined || script.cachedDataRejected === true)) {
    process.on('exit', (code) => {
      if (code === 0) ifPossible(() => writeCode(folder, name, key, script.createCachedData()));
    });
  }
  const command = { exports: {} };
  script.runInThisContext()(command.exports, require, command, filename, __dirname);
  // Code from a cache cannot import modules, so it is handed the means to.
  command.exports.start((url) => import(url));
};

start();
