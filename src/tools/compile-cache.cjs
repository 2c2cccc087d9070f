// Runs the command's usual work once and keeps what V8 compiled for it: `node compile-cache.cjs DIST FOLDER`.
'use strict';
const { writeFileSync } = require('node:fs');
const { join, resolve } = require('node:path');

const [dist, folder] = process.argv.slice(2).map((path) => resolve(path));
const write = process.stdout.write;
process.stdout.write = () => true;
process.argv = [
  process.argv[0],
  'blankwright',
  ...'make bracket-angle --leg-a 60 --leg-b 2in --width 80 --thickness 3 --hand both --holes-a 35,20,M8;35,60,8x20 --json'.split(' '),
  '--out',
  folder,
];
const { script } = require(join(dist, 'blankwright.cjs'));
process.on('exit', () => {
  process.stdout.write = write;
  if (process.exitCode === 0) writeFileSync(join(dist, 'cli.cache'), script.createCachedData());
});
