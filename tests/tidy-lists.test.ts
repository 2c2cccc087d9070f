import { readdirSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { describe, expect, test } from 'vitest';
import { CHECKS } from '../src/checks/index.ts';
import { RULE_CHAPTERS, RULES } from '../src/use/rules.ts';
import { ALL_FAMILIES } from '../templates/index.ts';
import { library, sourcesIn, tests } from './helpers/sources.ts';

/** The house rules on names and lists; those on folders and files stand in `tidy.test.ts`. */

describe('what is taken for the same', () => {
  const literal = /\de-\d/;
  const constant = /^(?:export )?const ([A-Z][A-Z\d_]*) = ([^;]*);/gm;

  test('has a name, not a bare figure', () => {
    const bare = library.flatMap(({ path, code }) =>
      code
        .replaceAll(constant, '')
        .split('\n')
        .filter((line) => literal.test(line))
        .map((line) => `${path}: ${line.trim()}`),
    );
    expect(bare, 'name it in src/geometry/tolerance.ts').toEqual([]);
  });

  test('has its reason above it', () => {
    const mute = library.flatMap(({ path, text }) => {
      const lines = text.split('\n');
      return lines.flatMap((line, i) => {
        const isNamed = /^(?:export )?const [A-Z]/.test(line) && literal.test(line);
        const above = lines[i - 1] ?? '';
        return !isNamed || /\*\/$|^\/\/ |^(?:export )?const [A-Z]/.test(above)
          ? []
          : [`${path}: ${line}`];
      });
    });
    expect(mute).toEqual([]);
  });

  test('has one name for one meaning: no small constant of the same name in two files', () => {
    const places = new Map<string, string[]>();
    for (const { path, code } of library)
      for (const [, name, value] of code.matchAll(constant)) {
        const isSmall = Math.abs(Number(value)) > 0 && Math.abs(Number(value)) < 1;
        if (isSmall) places.set(name as string, [...(places.get(name as string) ?? []), path]);
      }
    expect([...places].filter(([, paths]) => paths.length > 1)).toEqual([]);
  });
});

describe('what comes in families has its list and its tests', () => {
  const namesIn = (folder: string): string[] =>
    readdirSync(folder)
      .filter((name) => name.endsWith('.ts') && name !== 'index.ts')
      .map((name) => basename(name, '.ts'));

  test('templates', () => {
    expect([...ALL_FAMILIES.keys()].toSorted()).toEqual(
      library
        .filter(({ path }) => /^templates\/[^/]+\/index\.ts$/.test(path))
        .map(({ path }) => basename(dirname(path)))
        .toSorted(),
    );
    for (const family of ALL_FAMILIES.keys())
      expect(tests.map((t) => t.path)).toContain(`tests/templates/${family}.test.ts`);
  });

  test('checks', () => {
    const files = namesIn('src/checks').filter((name) => name !== 'check');
    expect(CHECKS).toHaveLength(files.length);
    const tested = tests
      .filter(({ path }) => path.startsWith('tests/checks/'))
      .map(({ text }) => text)
      .join('\n');
    for (const name of files) expect(tested).toContain(`'${name}'`);
  });

  /** Each place where a finding is made by a rule that is named there. */
  const told = library.flatMap(({ code, path }) =>
    [...code.matchAll(/\b(stop|warn|note|refuse|advise|foundOn)\(\s*'([a-z\d-]+)',/g)]
      .filter(() => !/^src\/(?:cli|dxf)\//.test(path))
      .map(([, maker, rule]) => ({ maker: maker as keyof typeof SEVERITY, rule: rule as string })),
  );
  const SEVERITY = {
    stop: 'stop',
    refuse: 'stop',
    foundOn: 'stop',
    warn: 'warn',
    advise: 'warn',
    note: 'note',
  } as const;
  const rules = RULE_CHAPTERS.flatMap((chapter) => chapter.rules);

  test('rules: what is told has an entry, which knows how it is told', () => {
    expect(told.length).toBeGreaterThan(200);
    expect(
      told.filter(
        ({ rule, maker }) => RULES.get(rule)?.severities.includes(SEVERITY[maker]) !== true,
      ),
      'give it an entry in src/rules/',
    ).toEqual([]);
  });

  test('rules: what has an entry is told, and is one of its name', () => {
    const written = library
      .filter(({ path }) => !path.startsWith('src/rules/'))
      .map((s) => s.code)
      .join('\n');
    expect(
      rules.filter(({ rule }) => !rule.startsWith('caution-') && !written.includes(`'${rule}'`)),
      'take it out of src/rules/',
    ).toEqual([]);
    expect(rules).toHaveLength(RULES.size);
  });

  test('rules: none has two entries', () => {
    const names = library
      .filter(({ path }) => path.startsWith('src/rules/'))
      .flatMap(({ code }) =>
        [...code.matchAll(/^ {2}'([a-z\d-]+)': \{$/gm)].map(([, name]) => name),
      );
    expect(names.length).toBeGreaterThan(150);
    expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([]);
  });

  test('rules: title, reason and mend are sentences, and no source is left open', () => {
    const open = rules.filter(
      ({ title, reason, mend, measured, source }) =>
        ![title, reason, mend].every((text) => /^(?:\S.*)[.]$/.test(text)) ||
        /[.]$/.test(measured) ||
        source === '',
    );
    expect(open).toEqual([]);
  });

  test('demo inputs, one of each family at least', () => {
    const demos = sourcesIn('templates/demo').flatMap(({ text }) =>
      [...text.matchAll(/^ *-? *family: (.+)$/gm)].map(([, family]) => family),
    );
    expect(new Set(demos)).toEqual(new Set(ALL_FAMILIES.keys()));
  });
});
