// Answers every question of tests/bench/ and prints a table, then the same as one line of JSON:
// `npm run bench`, or `npm run bench -- command` for some. An aim that is missed makes it end with 1,
// but with `--no-aims`. Each question is a file with a default
// export, bundled because Node runs no TypeScript by itself, and runs in a process of its own.
import { mkdtemp, rm } from 'node:fs/promises';
import { availableParallelism, loadavg } from 'node:os';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const QUESTIONS = [
  'command',
  'brackets',
  'cold',
  'tube',
  'read-inputs',
  'flatten',
  'write-dxf',
  'plan',
  'proof',
  'fit',
  'families',
  'folded',
  'job',
  'lay',
  'page',
];

const { values: flags, positionals: asked } = parseArgs({
  allowPositionals: true,
  options: { 'no-aims': { type: 'boolean', default: false } },
});
const unknown = asked.filter((name) => !QUESTIONS.includes(name));
if (unknown.length > 0) {
  console.error(`no such question: ${unknown.join(', ')}; there are ${QUESTIONS.join(', ')}`);
  process.exit(2);
}

// Inside the project, so that the packages are found from there.
const folder = await mkdtemp('.bench-');
const answers = [];
let run;
try {
  await build({
    entryPoints: [...QUESTIONS, 'run'].map((name) => `tests/bench/${name}.ts`),
    outdir: folder,
    outExtension: { '.js': '.mjs' },
    bundle: true,
    splitting: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    packages: 'external',
  });
  const bundled = (name) => pathToFileURL(resolve(join(folder, `${name}.mjs`))).href;
  run = await import(bundled('run'));
  for (const name of asked.length > 0 ? asked : QUESTIONS)
    answers.push(...run.inOwnProcess(bundled(name), 'default', []));
} finally {
  await rm(folder, { recursive: true });
}
const missed = run.missedOf(answers);
console.log(run.tableOf(answers));
// A machine that does other things scatters: so much of it was asked for in the last minute.
const machine = { cores: availableParallelism(), load: loadavg()[0] };
console.log(JSON.stringify({ node: process.version, ...machine, missed: missed.length, answers }));
if (missed.length > 0 && !flags['no-aims']) {
  for (const { question } of missed) console.error(`aim missed: ${question}`);
  process.exitCode = 1;
}
