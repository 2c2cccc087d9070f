// Builds the command and the library into dist/. The command is one file, started with code compiled ahead; the
// library is split, its packages left to the installation.
import { spawnSync } from 'node:child_process';
import { chmod, copyFile, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';

const node = (...args) => {
  const { status, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8', stdio: ['ignore', 'inherit', 'pipe'] });
  if (status !== 0) throw new Error(`${args.join(' ')}: ${stderr}`);
};

const shared = { bundle: true, platform: 'node', target: 'node20', logLevel: 'warning' };

await rm('dist', { recursive: true, force: true });
await build({
  ...shared,
  entryPoints: { cli: 'src/cli/bin.ts' },
  outdir: 'dist',
  outExtension: { '.js': '.cjs' },
  format: 'cjs',
  minify: true,
  define: { 'import.meta.url': 'moduleUrl' },
  banner: { js: "const moduleUrl = require('node:url').pathToFileURL(__filename).href;" },
});
await build({
  ...shared,
  entryPoints: { index: 'src/index.ts', template: 'src/template.ts' },
  outdir: 'dist',
  chunkNames: 'parts/[name]-[hash]',
  format: 'esm',
  splitting: true,
  packages: 'external',
});
await copyFile('src/tools/launch.cjs', 'dist/blankwright.cjs');
await chmod('dist/blankwright.cjs', 0o755);
const folder = await mkdtemp(join(tmpdir(), 'blankwright-'));
try {
  node('src/tools/compile-cache.cjs', 'dist', folder);
} finally {
  await rm(folder, { recursive: true, force: true });
}
if (!process.argv.includes('--no-types')) node('node_modules/typescript/bin/tsc', '-p', 'tsconfig.build.json');
