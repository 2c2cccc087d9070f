// Answers every question of tests/bench/ and prints a table, then the same as one line of JSON:
// `npm run bench`, or `npm run bench -- command` for some. Each question is a file with a default
// export, bundled because Node runs no TypeScript by itself, and runs in a process of its own.
import { spawnSync } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { build } from 'esbuild';

const QUESTIONS = [
  'command',
  'brackets',
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

const asked = process.argv.slice(2);
const unknown = asked.filter((name) => !QUESTIONS.includes(name));
if (unknown.length > 0) {
  console.error(`no such question: ${unknown.join(', ')}; there are ${QUESTIONS.join(', ')}`);
  process.exit(2);
}

// Inside the project, so that the packages are found from there.
const folder = await mkdtemp('.bench-');
const answers = [];
try {
  await build({
    entryPoints: QUESTIONS.map((name) => `tests/bench/${name}.ts`),
    outdir: folder,
    outExtension: { '.js': '.mjs' },
    bundle: true,
    splitting: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    packages: 'external',
  });
  for (const name of asked.length > 0 ? asked : QUESTIONS)
    answers.push(...answersOf(join(folder, `${name}.mjs`)));
} finally {
  await rm(folder, { recursive: true });
}
printTable(answers);
console.log(JSON.stringify({ node: process.version, answers }));

function answersOf(file) {
  const code = `import(${JSON.stringify(`./${file}`)}).then(async (m) => process.stdout.write(JSON.stringify(await m.default())))`;
  const { status, stdout, stderr } = spawnSync(process.execPath, ['-e', code], {
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(`${file} failed:\n${stderr}`);
  return JSON.parse(stdout);
}

function printTable(rows) {
  const cells = rows.map((a) => [
    a.question,
    `${a.medianMs.toFixed(a.medianMs < 10 ? 3 : 1)} ms`,
    a.p95Ms === undefined ? '' : `${a.p95Ms.toFixed(1)} ms`,
    `${Math.round(a.perSecond)}/s`,
    `${a.ratio.toFixed(2)} x ${a.against}`,
    a.aim ?? '',
  ]);
  const all = [['question', 'median', '95 of 100', 'rate', 'ratio', 'aim'], ...cells];
  const widths = all[0].map((_, i) => Math.max(...all.map((row) => row[i].length)));
  for (const row of all)
    console.log(
      row
        .map((cell, i) => cell.padEnd(widths[i]))
        .join('  ')
        .trimEnd(),
    );
}
