// Builds the page into one file that needs nothing else: its script, its look, and the core as a text
// that it starts as a worker. A hash of the script and of the look is the only leave that its
// Content-Security-Policy gives.
import { createHash } from 'node:crypto';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { build } from 'esbuild';

const shared = {
  bundle: true,
  platform: 'browser',
  target: 'es2022',
  format: 'iife',
  minify: true,
  legalComments: 'none',
  logLevel: 'warning',
  write: false,
  external: ['replicad-opencascadejs'],
};

const bundled = async (entryPoint, more = {}) => {
  const { outputFiles } = await build({ ...shared, ...more, entryPoints: [entryPoint] });
  return outputFiles[0].text;
};

/** A text that may stand within a script element: nothing in it ends one, or begins a comment. */
const inScript = (code) => code.replace(/<\/script/gi, '<\\/script').replace(/<!--/g, '<\\!--');

const hashOf = (text) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;

/** The page as a whole. What is hashed stands between its tags exactly as it was hashed. */
const pageOf = ({ policy, look, core, solid, script }) => `<!doctype html>
<!-- blankwright page -->
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>blankwright</title>
<style>${look}</style>
</head>
<body>
<div id="root"></div>
<noscript>This page works with JavaScript; the command blankwright does without it.</noscript>
<script type="application/json" id="kept">null</script>
<script type="text/plain" id="core">${core}</script>
<script type="text/plain" id="solid">${solid}</script>
<script>${script}</script>
</body>
</html>
`;

export const buildPage = async (dist) => {
  const core = inScript(await bundled('src/page/core/start-worker.ts'));
  const script = inScript(
    await bundled('src/page/ui/app.tsx', { jsx: 'automatic', jsxImportSource: 'preact' }),
  );
  // What draws solids is large. It is run when a folded part is first looked at, as a script of the page
  // whose text has this very hash.
  const solid = inScript(await bundled('src/page/ui/start-solid.ts'));
  const look = (
    await build({
      entryPoints: ['src/page/ui/look.css'],
      bundle: true,
      minify: true,
      write: false,
      loader: { '.css': 'css' },
    })
  ).outputFiles[0].text.trimEnd();
  const policy = [
    "default-src 'none'",
    `script-src ${hashOf(script)} ${hashOf(solid)}`,
    `style-src ${hashOf(look)}`,
    'worker-src blob:',
    "connect-src 'self'",
    'img-src data:',
    "form-action 'none'",
    "base-uri 'none'",
  ].join('; ');
  const page = pageOf({ policy, look, core, solid, script });
  await writeFile(join(dist, 'page.html'), page);
};
