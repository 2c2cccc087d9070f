import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import type { BrowserContext } from 'playwright-core';
import { build, type BuildResult } from 'esbuild';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { FAMILIES, type FamilyName, type OutputId } from '../../src/index.ts';
import { blankwright, tempFolder } from '../helpers/command.ts';
import { hasChromium, openBrowser } from '../helpers/chromium.ts';
import { needsOutside } from '../helpers/needs-outside.ts';
import { IS_FULL } from '../helpers/extent.ts';

/** What programs get that are bundled for a browser, and what a browser makes with it. */

const KERNEL = 'replicad-opencascadejs';

/**
 * An entry as a bundler takes it to a browser. What cannot be found there is an error, and so is a
 * builtin of Node, in our code and in that of packages.
 */
const bundled = (contents: string): Promise<Bundle> => {
  const known = bundles.get(contents) ?? bundle(contents);
  bundles.set(contents, known);
  return known;
};

type Bundle = BuildResult<{ readonly write: false; readonly metafile: true }>;
const bundles = new Map<string, Promise<Bundle>>();

const bundle = (contents: string): Promise<Bundle> =>
  build({
    stdin: { contents, resolveDir: '.', loader: 'ts' },
    bundle: true,
    platform: 'browser',
    format: 'esm',
    target: 'es2022',
    external: [KERNEL],
    metafile: true,
    write: false,
    logLevel: 'silent',
  });

const exampleOf = async (family: FamilyName, index: number) => {
  const example = (await FAMILIES[family]()).examples[index];
  if (example === undefined) throw new Error(`${family} has no example ${index}`);
  return example.inputs;
};

const LIBRARY = "export * from './src/index.ts';";
const MAKER = "export * from './src/maker-model.ts';";

describe('bundled for a browser', () => {
  test.each([
    ['the library', LIBRARY],
    ['the entry of makerjs', MAKER],
  ])('%s needs no builtin of Node, and leaves nothing unresolved', async (_, entry) => {
    const { warnings, metafile } = await bundled(entry);
    expect(warnings).toEqual([]);
    // Packages may say of a builtin that there is nothing in its place.
    expect(Object.keys(metafile.inputs).filter((path) => path.startsWith('(disabled)'))).toEqual(
      [],
    );
    const left = Object.values(metafile.outputs).flatMap((output) => output.imports);
    expect(left.filter(({ path }) => path !== KERNEL)).toEqual([]);
  });

  test('a builtin would be noticed', async () => {
    await expect(bundled("import 'node:fs';")).rejects.toThrow('node:fs');
    await expect(bundled("import 'zlib';")).rejects.toThrow('zlib');
  });

  test('the library comes without makerjs, which has an entry of its own', async () => {
    const packages = async (entry: string): Promise<Set<string | undefined>> =>
      new Set(
        Object.keys((await bundled(entry)).metafile.inputs).map(
          (path) => /node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(path)?.[1],
        ),
      );
    expect(await packages(LIBRARY)).not.toContain('makerjs');
    expect(await packages(MAKER)).toContain('makerjs');
  });
});

/**
 * One with holes and letters beyond ASCII in its name; a duct of cones and a cap with faces one
 * behind the other, where sines and cosines, which an engine may end as it likes (ECMAScript,
 * 21.3.2), would show. STEP bodies keep all their digits, so that only square parts agree to the
 * last.
 */
const PARTS: readonly (readonly [FamilyName, Readonly<Record<string, unknown>>, OutputId[]])[] = [
  [
    'bracket-angle',
    {
      name: 'Kübelhalter (łódź)',
      legA: 60,
      legB: 40,
      width: 80,
      material: 's275',
      thickness: 3,
      radius: 4,
      holesA: '35,20,M8',
      hand: 'right',
    },
    ['card', 'sheet', 'model', 'step'],
  ],
  ['duct-transition', await exampleOf('duct-transition', 0), ['card', 'sheet', 'model']],
  ['strut-brace', await exampleOf('strut-brace', 2), ['card', 'sheet', 'model']],
];

const ENDINGS: Readonly<Partial<Record<OutputId, readonly string[]>>> = {
  card: ['-card.pdf'],
  sheet: ['-sheet.html', '-sheet.pdf'],
  model: ['.glb', '.stl'],
  step: ['.step'],
};

/** What the page gives back: contents in base64, and the rules of what was found. */
interface MadeThere {
  readonly files: Readonly<Record<string, string>>;
  readonly rules: readonly string[];
}

/** Runs in the page, with the library alone: all files and papers of all parts. */
const MAKE_ALL = `async (family, inputs, outputs) => {
  const { FAMILIES, makeFiles } = await import('/library.js');
  const made = await makeFiles({ template: await FAMILIES[family](), inputs, outputs });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  const base64 = (contents) => {
    const bytes = typeof contents === 'string' ? new TextEncoder().encode(contents) : contents;
    return btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''));
  };
  return {
    files: Object.fromEntries(made.files.map(({ name, contents }) => [name, base64(contents)])),
    rules: made.findings.map(({ rule }) => rule),
  };
}`;

const ORIGIN = 'http://localhost';

/**
 * What the pages ask for: an empty page, the bundle, and the kernel's files where its package is
 * installed. A module by that name is found by an import map, or not at all.
 */
const answerTo = (url: string, library: string, hasKernel: boolean): Answer | undefined => {
  const { origin, pathname } = new URL(url);
  if (origin !== ORIGIN) return undefined;
  if (pathname === '/') {
    const imports = hasKernel ? { [KERNEL]: '/kernel/replicad_single.js' } : {};
    const body = `<!DOCTYPE html><link rel="icon" href="data:,"><script type="importmap">${JSON.stringify({ imports })}</script>`;
    return { body, contentType: 'text/html' };
  }
  if (pathname === '/library.js') return { body: library, contentType: 'text/javascript' };
  const name = /^\/kernel\/(replicad_single\.(?:js|wasm))$/.exec(pathname)?.[1];
  if (name === undefined || !hasKernel) return undefined;
  return {
    body: readFileSync(join(dirname(createRequire(import.meta.url).resolve(KERNEL)), name)),
    contentType: name.endsWith('.js') ? 'text/javascript' : 'application/wasm',
  };
};

interface Answer {
  readonly body: string | Buffer;
  readonly contentType: string;
}

describe('in Chromium', () => {
  let browser: BrowserContext | undefined;
  let library = '';
  beforeAll(async () => {
    if (!hasChromium) return;
    library = (await bundled(LIBRARY)).outputFiles[0]?.text ?? '';
    browser = await openBrowser();
  });
  afterAll(() => browser?.close());

  /** What a fresh page makes, and what it asked for and did not get. */
  const madeThere = async (
    family: string,
    inputs: object,
    kinds: readonly OutputId[],
    hasKernel: boolean,
  ): Promise<MadeThere & { readonly refused: readonly string[] }> => {
    if (browser === undefined) throw new Error('no browser');
    const page = await browser.newPage();
    const refused: string[] = [];
    await page.route('**/*', (route) => {
      const answer = answerTo(route.request().url(), library, hasKernel);
      if (answer !== undefined) return route.fulfill(answer);
      refused.push(route.request().url());
      return route.abort();
    });
    await page.goto(`${ORIGIN}/`);
    const made = await page.evaluate<MadeThere>(
      `(${MAKE_ALL})(...${JSON.stringify([family, inputs, kinds])})`,
    );
    await page.close();
    return { ...made, refused };
  };

  for (const [family, inputs, kinds] of IS_FULL ? PARTS : PARTS.slice(0, 1))
    test(`${family}: its files and ${kinds.join(', ')} are byte for byte what the command writes`, async (ctx) => {
      needsOutside(ctx, 'chromium', hasChromium);
      const cwd = tempFolder();
      writeFileSync(join(cwd, 'inputs.json'), JSON.stringify(inputs));
      const ran = await blankwright(
        ['make', family, '--from', 'inputs.json', '--papers', kinds.join(), '--json'],
        cwd,
      );
      expect([ran.code, ran.err]).toEqual([0, '']);
      const written = readdirSync(join(cwd, 'out')).toSorted();
      for (const ending of ['.dxf', '.svg', ...kinds.flatMap((kind) => ENDINGS[kind] ?? [])])
        expect(written.filter((name) => name.endsWith(ending))).not.toEqual([]);
      const { files, refused } = await madeThere(family, inputs, kinds, true);
      expect(refused).toEqual([]);
      expect(Object.keys(files).toSorted()).toEqual(written);
      const differing = written.filter(
        (name) => readFileSync(join(cwd, 'out', name)).toString('base64') !== files[name],
      );
      expect(differing).toEqual([]);
    });

  test('without the kernel there is no STEP file, and a finding that says why', async (ctx) => {
    needsOutside(ctx, 'chromium', hasChromium);
    const [[family, inputs, kinds]] = PARTS as [(typeof PARTS)[number]];
    const { files, rules, refused } = await madeThere(family, inputs, kinds, false);
    expect(Object.keys(files).filter((name) => name.endsWith('.step'))).toEqual([]);
    expect(Object.keys(files)).toHaveLength(7);
    expect(rules).toContain('step-needs-package');
    expect(refused).toEqual([]);
  });
});
