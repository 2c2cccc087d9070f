// Bundles the command and the library into dist/. The command is split into parts, so that each run reads only what
// it uses.
import { spawnSync } from 'node:child_process';
import { chmod, rm, writeFile } from 'node:fs/promises';
import { build } from 'esbuild';

await rm('dist', { recursive: true, force: true });
const shared = {
  bundle: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  logLevel: 'warning',
  // CommonJS packages inside the bundle ask for `require`.
  banner: { js: "import { createRequire as makeRequire } from 'node:module'; const require = makeRequire(import.meta.url);" },
};
await build({ ...shared, entryPoints: { cli: 'src/cli/bin.ts' }, outdir: 'dist', splitting: true, chunkNames: 'parts/[name]-[hash]', minify: true, keepNames: false });
await build({ ...shared, entryPoints: { index: 'src/index.ts', template: 'src/template.ts' }, outdir: 'dist', splitting: true, chunkNames: 'parts/[name]-[hash]', packages: 'external' });
await writeFile('dist/blankwright.js', "#!/usr/bin/env node\nimport './cli.js';\n");
await chmod('dist/blankwright.js', 0o755);
if (!process.argv.includes('--no-types')) {
  const types = spawnSync(process.execPath, ['node_modules/typescript/bin/tsc', '-p', 'tsconfig.build.json'], { stdio: 'inherit' });
  if (types.status !== 0) process.exit(types.status ?? 1);
}
