import { dirname, join, normalize, sep } from 'node:path';
import { describe, expect, test } from 'vitest';
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

  test('a file or two of each notation look at forms with zod; the proof reads its own part, a witness of itself', () => {
    expect(breaking(library, ({ code }) => /from 'zod'/.test(code))).toEqual([
      'src/forms/accepts.ts',
      'src/panels/fields.ts',
      'src/panels/given-pieces.ts',
      'src/panels/given.ts',
      'src/proof/read-part.ts',
    ]);
  });
});

describe('which folder may import which', () => {
  /**
   * A name is a folder of `src/` or a file in it, in the folders named below one of theirs;
   * `templates` is the folder at the top.
   */
  const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
    geometry: [],
    rules: [],
    statistics: [],
    text: ['geometry'],
    'dxf/contours': ['geometry', 'text'],
    // It knows the text of a file alone: what writes DXF is another thing.
    'dxf/read': ['geometry', 'text'],
    model: ['geometry', 'rules', 'text'],
    bending: ['model', 'text'],
    data: ['model', 'text'],
    'dxf/write': ['geometry', 'model', 'text'],
    'paper/sizes': ['geometry', 'model', 'text'],
    'plan/machines': ['geometry', 'model'],
    survey: ['geometry', 'model', 'statistics', 'text'],
    checks: ['bending', 'geometry', 'model', 'rules', 'text'],
    contract: ['bending', 'data', 'geometry', 'model', 'survey'],
    fold: ['bending', 'geometry', 'model', 'text'],
    'maker-model': ['dxf/write', 'geometry', 'model'],
    cutlist: ['contract', 'geometry', 'model', 'text'],
    flatten: ['bending', 'fold', 'geometry', 'model', 'text'],
    measure: ['contract', 'geometry', 'model'],
    'plan/search': ['contract', 'geometry', 'model', 'plan/machines'],
    solid: ['fold', 'geometry', 'model'],
    'use/rules': ['checks', 'data', 'rules'],
    welds: ['bending', 'fold', 'geometry', 'model', 'text'],
    assembly: ['fold', 'geometry', 'model', 'text', 'welds'],
    fit: ['bending', 'contract', 'data', 'geometry', 'measure', 'model', 'statistics', 'text'],
    forms: ['bending', 'contract', 'data', 'flatten', 'geometry', 'model', 'survey', 'text'],
    'plan/of-part': [
      'bending',
      'contract',
      'data',
      'fold',
      'geometry',
      'model',
      'plan/machines',
      'plan/search',
      'text',
    ],
    // It is an independent witness, and uses nothing of what made the file.
    proof: ['contract', 'dxf/contours', 'dxf/read', 'geometry', 'measure', 'model', 'text'],
    calibrate: ['bending', 'contract', 'data', 'forms', 'model', 'statistics', 'text'],
    kit: ['bending', 'forms', 'geometry', 'model', 'rules', 'text'],
    'paper/draw': [
      'contract',
      'data',
      'fold',
      'geometry',
      'model',
      'paper/sizes',
      'plan/machines',
      'plan/of-part',
      'plan/search',
      'solid',
      'text',
    ],
    shop: ['bending', 'data', 'forms', 'geometry', 'model', 'text'],
    'use/fit': ['contract', 'fit', 'flatten', 'forms', 'measure', 'model', 'text'],
    'use/made-part': ['contract', 'model', 'paper/sizes', 'plan/of-part'],
    'use/use-case': ['contract', 'forms', 'model'],
    panels: ['bending', 'data', 'flatten', 'fold', 'forms', 'geometry', 'kit', 'model', 'text'],
    'paper/write': ['dxf/write', 'geometry', 'model', 'paper/draw', 'text'],
    'plan/of-panels': ['data', 'forms', 'geometry', 'model', 'plan/machines', 'shop', 'text'],
    'use/bend': ['bending', 'contract', 'forms', 'model', 'text', 'use/use-case'],
    'use/calibrate': ['bending', 'calibrate', 'contract', 'model', 'shop', 'text', 'use/use-case'],
    'use/prove': ['contract', 'dxf/read', 'forms', 'model', 'proof', 'text', 'use/use-case'],
    'use/shop': ['bending', 'data', 'shop', 'text'],
    'use/survey': ['contract', 'forms', 'model', 'survey', 'text', 'use/use-case'],
    inspect: [
      'checks',
      'contract',
      'dxf/contours',
      'dxf/read',
      'dxf/write',
      'geometry',
      'model',
      'paper/draw',
      'paper/write',
      'text',
    ],
    'paper/sheet': [
      'contract',
      'data',
      'fold',
      'model',
      'paper/draw',
      'paper/sizes',
      'paper/write',
      'plan/of-part',
      'solid',
      'text',
    ],
    template: [
      'bending',
      'contract',
      'data',
      'flatten',
      'forms',
      'geometry',
      'kit',
      'model',
      'panels',
      'text',
    ],
    'use/panels': ['forms', 'model', 'panels', 'use/use-case'],
    // The folders of the families; the registry of families needs their common type.
    templates: ['forms', 'template'],
    'use/assembly': [
      'assembly',
      'data',
      'flatten',
      'fold',
      'geometry',
      'model',
      'paper/draw',
      'paper/sheet',
      'solid',
      'text',
      'use/made-part',
    ],
    'use/inspect': [
      'contract',
      'data',
      'dxf/read',
      'forms',
      'inspect',
      'model',
      'text',
      'use/use-case',
    ],
    'use/show': ['contract', 'model', 'paper/draw', 'paper/sheet', 'solid', 'use/made-part'],
    'use/outputs': [
      'contract',
      'data',
      'dxf/write',
      'fit',
      'fold',
      'forms',
      'model',
      'paper/draw',
      'paper/sheet',
      'paper/write',
      'plan/of-part',
      'rules',
      'solid',
      'text',
      'use/assembly',
      'use/made-part',
    ],
    'use/make': [
      'bending',
      'checks',
      'contract',
      'data',
      'flatten',
      'fold',
      'forms',
      'geometry',
      'measure',
      'model',
      'paper/draw',
      'paper/sizes',
      'plan/of-part',
      'proof',
      'shop',
      'text',
      'use/assembly',
      'use/fit',
      'use/made-part',
      'use/outputs',
      'use/use-case',
      'welds',
    ],
    jobfile: ['forms', 'model', 'text', 'use/make', 'use/outputs', 'use/rules'],
    'use/check-template': ['data', 'forms', 'use/make'],
    'use/plan': [
      'contract',
      'data',
      'forms',
      'model',
      'paper/draw',
      'plan/of-panels',
      'plan/of-part',
      'plan/search',
      'text',
      'use/made-part',
      'use/make',
      'use/outputs',
      'use/use-case',
    ],
    'use/job': [
      'contract',
      'cutlist',
      'data',
      'forms',
      'jobfile',
      'model',
      'paper/sheet',
      'paper/write',
      'text',
      'use/made-part',
      'use/make',
      'use/use-case',
    ],
    'use/cutlist': ['contract', 'cutlist', 'text', 'use/job', 'use/make', 'use/use-case'],
    'use/pack': [
      'contract',
      'cutlist',
      'data',
      'dxf/write',
      'fold',
      'geometry',
      'measure',
      'model',
      'paper/draw',
      'paper/sheet',
      'paper/write',
      'solid',
      'text',
      'use/assembly',
      'use/job',
      'use/made-part',
      'use/make',
      'use/outputs',
      'use/use-case',
    ],
    index: [
      'assembly',
      'bending',
      'contract',
      'cutlist',
      'data',
      'dxf/write',
      'flatten',
      'fold',
      'forms',
      'jobfile',
      'measure',
      'model',
      'panels',
      'paper/draw',
      'paper/write',
      'proof',
      'rules',
      'shop',
      'solid',
      'survey',
      'templates',
      'use/assembly',
      'use/bend',
      'use/calibrate',
      'use/check-template',
      'use/cutlist',
      'use/inspect',
      'use/job',
      'use/made-part',
      'use/make',
      'use/outputs',
      'use/pack',
      'use/panels',
      'use/plan',
      'use/prove',
      'use/rules',
      'use/survey',
      'use/use-case',
    ],
    page: [
      'contract',
      'data',
      'forms',
      'jobfile',
      'model',
      'paper/draw',
      'paper/write',
      'shop',
      'templates',
      'text',
      'use/cutlist',
      'use/inspect',
      'use/made-part',
      'use/make',
      'use/outputs',
      'use/plan',
      'use/show',
    ],
    // Each command reads its files, asks the core, and writes, and does no more.
    cli: [
      'bending',
      'contract',
      'cutlist',
      'data',
      'dxf/read',
      'forms',
      'inspect',
      'jobfile',
      'model',
      'page',
      'paper/draw',
      'paper/write',
      'rules',
      'shop',
      'templates',
      'text',
      'use/bend',
      'use/calibrate',
      'use/cutlist',
      'use/fit',
      'use/inspect',
      'use/job',
      'use/make',
      'use/outputs',
      'use/pack',
      'use/panels',
      'use/plan',
      'use/prove',
      'use/rules',
      'use/shop',
      'use/survey',
      'use/use-case',
    ],
  };

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
  const modules = library.filter(({ path }) => path.endsWith('.ts') && !path.endsWith('.d.ts'));

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
    ['src/cli/bin.ts', 'src/index.ts', 'src/template.ts', 'src/maker-model.ts'].forEach(visit);
    expect(breaking(modules, ({ path }) => !reached.has(path))).toEqual([]);
  });
});

describe('every file', () => {
  const all = [...library, ...tests];

  test('is short: 300 lines at most, of tests 450', () => {
    const isLong = ({ text }: Source): boolean => text.trimEnd().split('\n').length > 300;
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
