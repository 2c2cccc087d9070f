// Runs the command's usual work once and keeps what V8 compiled for it: `node compile-cache.cjs DIST FOLDER`.
'use strict';
const { writeFileSync } = require('node:fs');
const { join, resolve } = require('node:path');

const [dist, folder] = process.argv.slice(2).map((path) => resolve(path));
process.argv = [
  process.argv[0],
  'blankwright',
  ...'make bracket-angle --leg-a 60 --leg-b 2in --width 80 --thickness 3 --hand both --holes-a 35,20,M8;35,60,8x20 --json --from templates/demo/seat-post.yaml'.split(' '),
  '--out',
  folder,
];
const { script } = require(join(dist, 'blankwright.cjs'));
process.on('exit', () => {
  if (process.exitCode === 0) writeFileSync(join(dist, 'cli.cache'), script.createCachedData());
});
