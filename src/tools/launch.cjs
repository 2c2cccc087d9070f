#!/usr/bin/env node
// Starts the command with code that was compiled when it was built. V8 itself refuses a cache made by another version
// or with other flags; without one, or with a stale one, everything works the same and starts a little slower.
'use strict';
const { readFileSync } = require('node:fs');
const { wrap } = require('node:module');
const { join } = require('node:path');
const { Script, constants } = require('node:vm');

const filename = join(__dirname, 'cli.cjs');

const compiled = () => {
  try {
    return readFileSync(join(__dirname, 'cli.cache'));
  } catch {
    return undefined;
  }
};

const script = new Script(wrap(readFileSync(filename, 'utf8')), {
  filename,
  cachedData: compiled(),
  importModuleDynamically: constants.USE_MAIN_CONTEXT_DEFAULT_LOADER,
});
script.runInThisContext()(exports, require, module, filename, __dirname);
module.exports = { script };
