#!/usr/bin/env node
// Starts the command with code that was compiled when it was built. V8 itself refuses a cache made by another version
// or with other flags; without one, or with a stale one, everything works the same and starts a little slower.
'use strict';
const { readFileSync } = require('node:fs');
const { join } = require('node:path');
const { Script } = require('node:vm');

const filename = join(__dirname, 'cli.cjs');

const compiled = () => {
  try {
    return readFileSync(join(__dirname, 'cli.cache'));
  } catch {
    return undefined;
  }
};

const script = new Script(readFileSync(filename, 'latin1'), { filename, cachedData: compiled() });
const command = { exports: {} };
script.runInThisContext()(command.exports, require, command, filename, __dirname);
// Code from a cache cannot import modules, so it is handed the means to.
command.exports.start((url) => import(url));
module.exports = { script };
