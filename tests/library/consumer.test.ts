import { execFileSync, spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import * as library from '../../src/index.ts';
import { IS_FULL } from '../helpers/extent.ts';

/**
 * What programs of other people's see: the package as it is published, and types with which they
 * are compiled.
 */

let home = '';
beforeAll(() => {
  home = mkdtempSync(join(tmpdir(), 'blankwright-consumer-'));
  installed(home);
});
afterAll(() => rmSync(home, { recursive: true, force: true }));

const TSC = resolve('node_modules/typescript/bin/tsc');

/**
 * Packs what the tests were built with, and its types, and puts it beside the packages that it
 * depends on.
 */
const installed = (folder: string): void => {
  const stage = join(folder, 'stage');
  mkdirSync(stage);
  for (const name of [
    'package.json',
    'README.md',
    'LICENSE',
    'CHANGELOG.md',
    'templates',
    'dist',
    'src',
  ])
    cpSync(name, join(stage, name), { recursive: true });
  rmSync(join(stage, 'dist', 'types'), { recursive: true, force: true });
  execFileSync(process.execPath, [
    TSC,
    '-p',
    'src/tools/tsconfig.build.json',
    '--outDir',
    join(stage, 'dist', 'types'),
  ]);
  const [packed] = JSON.parse(
    execFileSync('npm', ['pack', '--ignore-scripts', '--json', '--pack-destination', folder], {
      cwd: stage,
      encoding: 'utf8',
    }),
  ) as { filename: string }[];
  const modules = join(folder, 'node_modules');
  mkdirSync(modules);
  for (const name of readdirSync('node_modules').filter(
    (each) => !each.startsWith('.') && each !== 'blankwright',
  ))
    symlinkSync(resolve('node_modules', name), join(modules, name));
  mkdirSync(join(modules, 'blankwright'));
  execFileSync('tar', [
    '-xzf',
    join(folder, packed?.filename ?? ''),
    '--strip-components=1',
    '-C',
    join(modules, 'blankwright'),
  ]);
  rmSync(stage, { recursive: true });
  writeFileSync(join(folder, 'package.json'), '{"type":"module","private":true}');
};

/**
 * Compiles programs by their names, as strictly as anybody does, and gives what is wrong with them;
 * their JavaScript lies in `js/`.
 */
const compiled = (sources: Readonly<Record<string, string>>, lib = ['ES2023']): string => {
  for (const [name, text] of Object.entries(sources)) writeFileSync(join(home, name), text);
  const options = {
    strict: true,
    exactOptionalPropertyTypes: true,
    noUncheckedIndexedAccess: true,
    skipLibCheck: false,
    module: 'NodeNext',
    target: 'ES2022',
    lib,
    types: ['node'],
    outDir: 'js',
    rootDir: '.',
  };
  writeFileSync(
    join(home, 'tsconfig.json'),
    JSON.stringify({ compilerOptions: options, files: Object.keys(sources) }),
  );
  const { stdout } = spawnSync(process.execPath, [TSC, '-p', '.'], { cwd: home, encoding: 'utf8' });
  return stdout;
};

const ran = (name: string): string => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [join('js', name)], {
    cwd: home,
    encoding: 'utf8',
  });
  expect([status, stderr]).toEqual([0, '']);
  return stdout;
};

const once = <T>(make: () => T): (() => T) => {
  let made: { readonly value: T } | undefined;
  return () => (made ??= { value: make() }).value;
};

const CONSUMER = `import { type Made, type MakeOptions, type Template, FAMILIES, type FamilyName, makeParts, MATERIALS, readShop } from 'blankwright';
import { defineTemplate, fields, type GivenPart, rectangle, type TemplateValues } from 'blankwright/template';

const angle: Template = await FAMILIES['bracket-angle']();
const inputs = { legA: 60, legB: 40, width: 80, thickness: 3, material: MATERIALS[0]?.id };
const none: MakeOptions = {};
const all: MakeOptions = { cutOnly: true, dxfVersion: 'r12', foldAt: 'service', kerf: 'shop', marks: 'none', fit: {}, shop: undefined };
const made: readonly Made[] = [makeParts(angle, inputs), makeParts(angle, inputs, {}), makeParts(angle, inputs, none), makeParts(angle, inputs, all)];
const names: FamilyName[] = ['ring', 'tank'];
const shop = readShop('cutters: none');

const part = (width: number): GivenPart => ({ panels: [{ id: 'plate', outline: rectangle(0, 0, width, 20) }] });
const mine = defineTemplate({ family: 'mine', summary: 'A plate.', inputs: { width: fields.length({ about: 'Width.', min: 1, max: 500 }), side: fields.choice({ about: 'Side.', choices: ['near', 'far'], default: 'near' }) }, build: ({ width, side, thicknessMm }) => ({ part: part(side === 'near' ? width : width + thicknessMm) }) });
// Values of inputs that stand by themselves have their type from them.
const asked = { ...fields.group('The plate', { size: fields.length({ about: 'Size.', min: 1, max: 500 }) }), lip: fields.optionalLength({ about: 'Lip.', min: 1, max: 50, otherwise: 'none', when: { size: 'more than 0' } }) };
type Asked = TemplateValues<typeof asked>;
const sizeOf = (v: Asked): number => v.size + (v.lip ?? 0) + v.thicknessMm;
void defineTemplate({ family: 'asked', summary: 'A plate.', inputs: asked, build: (v) => ({ part: part(sizeOf(v)) }) });
const own = makeParts(mine, { width: 40, side: 'far', thickness: 2 });

console.log(JSON.stringify([made.map((m) => m.ok), names, shop.ok, own.ok && own.parts[0]?.result.blank?.widthMm]));

// What must not compile, and does not.
// @ts-expect-error there is no such family
void FAMILIES['bracket-angel'];
// @ts-expect-error nor such an option
makeParts(angle, inputs, { cutonly: true });
// @ts-expect-error what may be left out is not always there
const lipOf = (v: Asked): number => v.lip;
// @ts-expect-error nor such an input of its own
defineTemplate({ family: 'x', summary: 'x', inputs: { width: fields.length({ about: 'x.', min: 1, max: 2 }) }, build: (v) => ({ part: part(v.height) }) });
`;

test('a program compiles against the types of the package, as strictly as can be, and runs', () => {
  expect(mistakes()).toBe('');
  expect(JSON.parse(ran('consumer.js'))).toEqual([
    [true, true, true, true],
    ['ring', 'tank'],
    false,
    42,
  ]);
});

const blocksOf = (name: string): string[] =>
  [...readFileSync(name, 'utf8').matchAll(/^```ts\n([^]*?)^```$/gm)].map(([, text]) => text ?? '');

/** The programs in the documents of the package. */
const sources = Object.fromEntries(
  ['src', 'templates'].flatMap((name) =>
    blocksOf(`${name}/README.md`).map((text, i) => [`${name}-${i}.ts`, text] as const),
  ),
);

/**
 * What is wrong with all of these programs. Those that use makerjs need the names of a browser, and
 * no other may: in full they are compiled without them; in short all go together, which takes half of
 * the time.
 */
const mistakes = once((): string => {
  const all = { 'consumer.ts': CONSUMER, ...sources };
  if (!IS_FULL) return compiled(all, ['ES2023', 'DOM']);
  const isMaker = ([, text]: readonly [string, string]): boolean => text.includes("'makerjs'");
  const [maker, others] = [true, false].map((is) =>
    Object.fromEntries(Object.entries(all).filter((each) => isMaker(each) === is)),
  );
  return compiled(others ?? {}) + compiled(maker ?? {}, ['ES2023', 'DOM']);
});

describe('the documents of the package', () => {
  // The same compiler has seen a program of every export above.
  test.runIf(IS_FULL)('hold programs that compile and run', () => {
    /** What the program prints that has a word in it which no other has. */
    const shown = (word: string): string => {
      const named = Object.keys(sources).filter((name) => sources[name]?.includes(word));
      expect(named, word).toHaveLength(1);
      return ran(`${named[0]?.replace('.ts', '.js')}`);
    };
    expect(mistakes()).toBe('');
    expect(shown('file.contents.length')).toMatch(/bracket-angle-R\.dxf \d+/);
    expect(shown('makeFiles')).toMatch(/-card\.pdf \d+\n.*-sheet\.html \d+\n.*-sheet\.pdf \d+/);
    // The blank, by makerjs; 5 mm more on each side; the mat's rounded corners in SVG.
    const [blank, mat, path] = shown('makerModel').split('\n');
    const [width, height] = (blank ?? '').split(' ').map(Number) as [number, number];
    expect(width).toBe(80);
    expect(mat).toBe(`${(width + 10).toFixed(2)} ${(height + 10).toFixed(2)}`);
    expect(path).toMatch(/^M [-\d.]+ [-\d.]+ .*A 5 5 /);
    expect(shown('askedOf')).toMatch(/^80 \d\d\.\d+ 0\.000/);
    expect(shown('applyMend')).toMatch(/false\n$/);
    // The folded tray as one element, its edges drawn and its first fold named.
    expect(shown('foldedView')).toMatch(
      /^<svg [^>]*viewBox="0 0 90 70"[^]*<path [^]*>A<\/text>[^]*<\/svg>\n+$/,
    );
    const printed =
      /^prints `(.*), \.\.\.`/m.exec(readFileSync('templates/README.md', 'utf8'))?.[1] ?? '?';
    expect(ran('templates-2.js').startsWith(printed)).toBe(true);
  });

  test('hold families that the command makes, and whose examples are right', () => {
    const command = join(home, 'node_modules', 'blankwright', 'dist', 'blankwright.cjs');
    const make = (file: string, ...args: string[]) =>
      spawnSync(
        process.execPath,
        [command, 'make', '--template', join('js', file), ...args, '--json'],
        { cwd: home, encoding: 'utf8' },
      );
    const stopBlock = make(
      'templates-0.js',
      '--floor',
      '50',
      '--width',
      '80',
      '--thickness',
      '2',
      '--hand',
      'both',
    );
    expect([
      stopBlock.status,
      (JSON.parse(stopBlock.stdout) as { parts: { folded: { sizeMm: number[] } }[] }).parts.map(
        (p) => p.folded.sizeMm.toSorted((a, b) => a - b),
      ),
    ]).toEqual([0, Array(2).fill([20, 50, 80].map((n) => expect.closeTo(n, 6) as number))]);
    const lids = make('templates-1.js', '--length', '400', '--width', '200', '--thickness', '1');
    expect([
      lids.status,
      (JSON.parse(lids.stdout) as { parts: { piece: string }[] }).parts.map((p) => p.piece),
    ]).toEqual([0, ['plain', 'lipped']]);
    expect(
      make('templates-1.js', '--length', '400', '--width', '200', '--thickness', '1', '--lip', '2')
        .status,
    ).toBe(1);
    writeFileSync(
      join(home, 'js', 'check.js'),
      "import { checkTemplate } from 'blankwright';\nfor (const i of [0, 1, 3, 4, 5, 6]) console.log(JSON.stringify(checkTemplate((await import(`./templates-${i}.js`)).default)));\n",
    );
    expect(ran('check.js')).toBe('[]\n'.repeat(6));
  });

  test('name everything that the library has', () => {
    const text = readFileSync('src/README.md', 'utf8');
    const types = [
      ...readFileSync('src/index.ts', 'utf8').matchAll(/^export type \{ ([^}]*) \}/gm),
    ].flatMap(([, names]) => names?.split(', ') ?? []);
    const named = new Set([...text.matchAll(/`([A-Za-z_]+)`/g)].map(([, name]) => name));
    expect([...Object.keys(library), ...types].filter((name) => !named.has(name))).toEqual([]);
  });

  test('come with the package, which brings no code compiled for one Node', () => {
    const root = join(home, 'node_modules', 'blankwright');
    for (const name of [
      'src/README.md',
      'templates/README.md',
      'README.md',
      'LICENSE',
      'dist/blankwright.cjs',
      'dist/types/src/index.d.ts',
      'templates/demo/cart.job.yaml',
    ])
      expect(existsSync(join(root, name))).toBe(true);
    expect(readdirSync(join(root, 'dist')).toSorted()).toEqual([
      'blankwright.cjs',
      'cli.cjs',
      'index.js',
      'maker-model.js',
      'page.html',
      'parts',
      'search-thread.cjs',
      'template.js',
      'types',
    ]);
    for (const [, path] of readFileSync(join(root, 'README.md'), 'utf8').matchAll(
      /\]\(((?:src|templates)\/[^)#]+)/g,
    ))
      expect(existsSync(join(root, path ?? ''))).toBe(true);
  });
});
