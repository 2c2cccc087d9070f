import { dirname, join, normalize, sep } from 'node:path';
import { describe, expect, test } from 'vitest';
import { MAY_IMPORT } from './helpers/may-import.ts';
import { breaking, library, type Source, tests } from './helpers/sources.ts';

/** The house rules, as far as they can be counted. DEVELOPERS.md gives their reasons. */

/** Where the program meets the machine; all else is text and values in, text and values out. */
const isDoor = ({ path }: Source): boolean => /^src\/(?:cli|tools|page\/ui)\//.test(path);

describe('the pure core', () => {
  const core = library.filter((s) => !isDoor(s));

  test('there is one', () => {
    expect(core.length).toBeGreaterThan(50);
  });

  test.each([
    ['files, processes and the net', /from 'node:|require\(|\bprocess\.|\bfetch\(/],
    ['the console', /\bconsole\./],
    // The date 0 is no clock: a file that must bear a date bears that one.
    ['the clock', /\bDate\b(?!\(0\))|\bperformance\.|\bsetTimeout\b/],
    // Browsers have none; bytes are Uint8Array everywhere.
    ['what Node alone has', /\bBuffer\b|\b__(?:dir|file)name\b|\bglobal\./],
    ['chance', /Math\.random|randomUUID|getRandomValues/],
    ['code made of text', /\beval\(|new Function\b/],
  ])('leaves alone: %s', (_, pattern) => {
    expect(breaking(core, ({ code }) => pattern.test(code))).toEqual([]);
  });

  test('one file knows how long an inch is', () => {
    expect(breaking(library, ({ code }) => /\b25\.4\b/.test(code))).toEqual(['src/text/units.ts']);
  });

  test('a file or two of each notation look at forms with zod; the proof reads its own part, a witness of itself, and a layout is read as it was printed', () => {
    expect(breaking(library, ({ code }) => /from 'zod'/.test(code))).toEqual([
      'src/forms/accepts.ts',
      'src/panels/fields.ts',
      'src/panels/given-pieces.ts',
      'src/panels/given.ts',
      'src/proof/read-part.ts',
      'src/use/laid/read-layout.ts',
    ]);
  });
});

describe('which folder may import which', () => {
  const NESTED = ['dxf', 'paper', 'plan', 'use'];
  const importsOf = ({ path, code }: Source): string[] =>
    [...code.matchAll(/(?:\bfrom|\bimport\()\s*'(\.[^']*)'/g)].map(([, target]) =>
      normalize(join(dirname(path), target as string))
        .split(sep)
        .join('/'),
    );
  const home = (path: string): string => {
    const [top, name, below] = path.split('/') as [string, string, string];
    if (NESTED.includes(name)) return `${name}/${below.replace(/\.ts$/, '')}`;
    return top === 'src' ? name.replace(/\.ts$/, '') : top;
  };
  const modules = library.filter(({ path }) => /\.tsx?$/.test(path) && !path.endsWith('.d.ts'));

  test('every folder has its place in the order', () => {
    expect([...new Set(modules.map((s) => home(s.path)))].toSorted()).toEqual(
      Object.keys(MAY_IMPORT).toSorted(),
    );
  });

  test('imports go one way', () => {
    const wrong = modules.flatMap((source) =>
      importsOf(source)
        .filter(
          (target) =>
            home(target) !== home(source.path) &&
            MAY_IMPORT[home(source.path)]?.includes(home(target)) !== true,
        )
        .map((target) => `${source.path} imports ${target}`),
    );
    expect(wrong).toEqual([]);
  });

  test('the proof reaches nothing of what made the file, by however many steps', () => {
    const reached = new Set<string>();
    const visit = (name: string): void => {
      if (reached.has(name)) return;
      reached.add(name);
      MAY_IMPORT[name]?.forEach(visit);
    };
    visit('proof');
    expect(
      [...reached].filter((name) =>
        ['dxf/write', 'paper/draw', 'flatten', 'use/make', 'inspect'].includes(name),
      ),
    ).toEqual([]);
  });

  test('a family imports nothing but the template entry, and families', () => {
    const families = modules.filter(
      ({ path }) => path.startsWith('templates/') && path !== 'templates/index.ts',
    );
    expect(
      breaking(families, (s) =>
        importsOf(s).some(
          (target) => target !== 'src/template.ts' && !target.startsWith('templates/'),
        ),
      ),
    ).toEqual([]);
  });

  test('every module is used by the command or an entry of the library', () => {
    const byPath = new Map(modules.map((s) => [s.path, s]));
    const reached = new Set<string>();
    const visit = (path: string): void => {
      const source = byPath.get(path);
      if (source === undefined || reached.has(path)) return;
      reached.add(path);
      importsOf(source).forEach(visit);
    };
    [
      'src/cli/bin.ts',
      'src/index.ts',
      'src/template.ts',
      'src/maker-model.ts',
      'src/page/ui/app.tsx',
      'src/page/core/start-worker.ts',
      'src/page/ui/start-solid.ts',
    ].forEach(visit);
    expect(breaking(modules, ({ path }) => !reached.has(path))).toEqual([]);
  });
});

describe('every file', () => {
  const all = [...library, ...tests];

  test('is short: 300 lines at most, of tests 450', () => {
    // A job is a list of parts, and as long as there are parts.
    const isLong = ({ path, text }: Source): boolean =>
      !path.endsWith('.yaml') && text.trimEnd().split('\n').length > 300;
    expect(breaking(library, isLong)).toEqual([]);
    expect(breaking(tests, ({ text }) => text.split('\n').length > 450)).toEqual([]);
  });

  test('is free of paths of one machine, and of switched-off checks', () => {
    const paths = new RegExp(
      `["'\`\\s(](?:/${'work'}|/${'tmp'}|/${'home'}|/${'root'}|/${'Users'})/`,
    );
    const silenced = new RegExp(`@ts-${'ignore'}|@ts-${'nocheck'}|(?:eslint|oxlint)-${'disable'}`);
    expect(breaking(all, ({ text }) => paths.test(text) || silenced.test(text))).toEqual([]);
  });

  test('of the tests runs: none is left out or left alone', () => {
    const left = new RegExp(`\\b(?:test|it|describe)\\.(?:${'skip'}|${'only'}|${'todo'})`);
    expect(breaking(tests, ({ code }) => left.test(code))).toEqual([]);
  });
});
