// Builds the command and the library into dist/. The command is one file; the library is split, its
// packages left to the installation; the page is one file. `--no-types` leaves out the type declarations.
import { spawnSync } from 'node:child_process';
import { chmod, copyFile, mkdtemp, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { build } from 'esbuild';
import { buildPage } from './build-page.mjs';

const shared = { bundle: true, platform: 'node', target: 'node20', logLevel: 'warning' };

const node = (...args) => {
  const { status, stdout, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8' });
  if (status !== 0) throw new Error(`node ${args.join(' ')} failed:\n${stdout}${stderr}`);
};

const buildAll = async (dist) => {
  await build({
    ...shared,
    entryPoints: { cli: 'src/cli/bin.ts' },
    outdir: dist,
    outExtension: { '.js': '.cjs' },
    format: 'cjs',
    minify: true,
    // Large, needed for papers and models only, and read files beside themselves: loaded from the
    // installation when asked for, by `require`, as code that an earlier run compiled cannot
    // import.
    external: ['replicad-opencascadejs'],
    supported: { 'dynamic-import': false },
    define: { 'import.meta.url': 'moduleUrl' },
    // The function that Node makes of a module, ready made, for the launcher to compile as it is.
    banner: {
      js: "(function (exports, require, module, __filename, __dirname) { const moduleUrl = require('node:url').pathToFileURL(__filename).href;",
    },
    footer: { js: '})' },
  });
  await toAscii(join(dist, 'cli.cjs'));
  // What threads of the command run, each a program of its own.
  await build({
    ...shared,
    entryPoints: { 'search-thread': 'src/cli/lay/search-thread.ts' },
    outdir: dist,
    outExtension: { '.js': '.cjs' },
    format: 'cjs',
    minify: true,
  });
  await build({
    ...shared,
    entryPoints: {
      index: 'src/index.ts',
      template: 'src/template.ts',
      'maker-model': 'src/maker-model.ts',
    },
    outdir: dist,
    chunkNames: 'parts/[name]-[hash]',
    format: 'esm',
    splitting: true,
    packages: 'external',
  });
  await buildPage(dist);
  await copyFile('src/tools/launch.cjs', join(dist, 'blankwright.cjs'));
  await chmod(join(dist, 'blankwright.cjs'), 0o755);
  if (!process.argv.includes('--no-types'))
    node(
      'node_modules/typescript/bin/tsc',
      '-p',
      'src/tools/tsconfig.build.json',
      '--outDir',
      join(dist, 'types'),
    );
};

/**
 * V8 takes twice the memory and three times as long for a text with a single character beyond
 * Latin-1. What esbuild leaves of them stands in regular expressions.
 */
const toAscii = async (path) => {
  const text = await readFile(path, 'utf8');
  await writeFile(
    path,
    text.replace(/[^\0-\x7f]/g, (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`),
  );
};

// Built beside its place and moved there in one go: a command that runs meanwhile finds the old one
// or the new one.
const fresh = await mkdtemp('.dist-');
try {
  await buildAll(fresh);
  await chmod(fresh, 0o755);
  await rm('.dist-old', { recursive: true, force: true });
  await rename('dist', '.dist-old').catch((error) => {
    if (error.code !== 'ENOENT') throw error;
  });
  await rename(fresh, 'dist');
} finally {
  await Promise.all([fresh, '.dist-old'].map((path) => rm(path, { recursive: true, force: true })));
}
