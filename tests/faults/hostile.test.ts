import { execFileSync } from 'node:child_process';
import { readdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { bendFigures } from '../../src/bending/bend.ts';
import { readStrips } from '../../src/calibrate/read.ts';
import { parseYaml } from '../../src/forms/yaml.ts';
import { readInputs } from '../../src/forms/read.ts';
import type { Template } from '../../src/forms/template.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { readJob } from '../../src/jobfile/read.ts';
import { readCase } from '../../src/plan/of-panels/panels.ts';
import { readPart } from '../../src/proof/read-part.ts';
import { readShop } from '../../src/shop/read.ts';
import { FAMILIES } from '../../templates/index.ts';
import { blankwright, tempFolder } from '../helpers/command.ts';
import { everything, ring, ringJob, TWELVE } from '../helpers/faults.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';
import { caseOf } from '../plan/cases.ts';

const TEMPLATES = new Map<string, Template>(
  await Promise.all(
    [...FAMILIES].map(async ([name, load]) => [name, (await load()).default] as const),
  ),
);
const BRACKET = TEMPLATES.get('bracket-angle') as Template;
const BRACKET_INPUTS = {
  legA: 60,
  legB: 40,
  width: 80,
  thickness: 3,
  radius: 3,
  holesA: '35,20,M8',
};

type Json = string | number | boolean | null | readonly Json[] | { readonly [name: string]: Json };

const plain = (value: unknown): Json => JSON.parse(JSON.stringify(value)) as Json;

const yaml = (text: string): unknown => {
  const read = parseYaml(text);
  if (!read.ok) throw new Error(read.mend);
  return read.value;
};

const partOf = (): Json => {
  const made = makeParts(BRACKET, BRACKET_INPUTS, UNPLANNED);
  if (!made.ok) throw new Error('the bracket is not made');
  return plain({ ...made.parts[0]?.result, files: [] });
};

const SHOP = plain(
  yaml(`name: farm workshop
cutters:
  - { name: torch, process: plasma, thickness: { from: 1, to: 6 }, bed: { length: 1000, width: 500 }, kerf: [{ thickness: 3, kerf: 1.5 }], leastHole: [{ mm: 12 }] }
sheets: [{ length: 2000, width: 1000, material: steel, thickness: 2, price: 40 }]
marking: { folds: nicks, face: inside }
handover: { names: '{name}_{quantity}', perSheet: yes, tolerance: m }
weldGap: 0.5
bends: [{ material: dc01, machine: folder, tool: nose, thickness: 1.5, radius: 1.5, k: 0.4, kError: 0.01, radiusError: 0.1, strips: 5, angles: { from: 45, to: 120 } }]`),
);

interface Kind {
  /** A file of its kind that is in order. */
  readonly valid: Json;
  /** What the command makes of a text; a YAML text that cannot be parsed is its own answer. */
  readonly read: (text: string) => { readonly ok: boolean };
}

const KINDS: Readonly<Record<string, Kind>> = {
  'a job': { valid: plain(yaml(TWELVE)), read: (text) => readJob(text, TEMPLATES) },
  'a shop': { valid: SHOP, read: readShop },
  'inputs for make --from': {
    valid: BRACKET_INPUTS,
    read: (text) =>
      readParsed(text, (value) => readInputs(BRACKET, value as Record<string, unknown>)),
  },
  'strips to calibrate by': {
    valid: {
      material: 'dc01',
      thickness: 1.48,
      tool: 'nose',
      strips: [{ flat: 150, legA: 76.4, legB: 76.2, angle: 90, stopAt: 91.5 }],
    },
    read: (text) => readStrips(text, 'yaml'),
  },
  'panels to plan': { valid: plain(caseOf('FC01')), read: (text) => readParsed(text, readCase) },
  'a part to prove by': { valid: partOf(), read: readPartText },
};

const readParsed = (
  text: string,
  read: (value: unknown) => { readonly ok: boolean },
): { readonly ok: boolean } => {
  const parsed = parseYaml(text);
  return parsed.ok ? read(parsed.value) : parsed;
};

/** Such a part is read as JSON alone. */
function readPartText(text: string): { readonly ok: boolean } {
  try {
    return readPart(JSON.parse(text), 'x.dxf');
  } catch {
    return { ok: false };
  }
}

/**
 * Texts of a file, as JSON, which is YAML too, with `change` made at one place after the other;
 * `number` is that of the place.
 */
const changedAt = (
  valid: Json,
  change: (value: Json, number: number) => string | undefined,
): string[] => {
  const texts: string[] = [];
  let number = 0;
  const walk = (value: Json, around: (inner: string) => string): void => {
    const other = change(value, number);
    number += 1;
    if (other !== undefined) texts.push(around(other));
    if (Array.isArray(value)) {
      const items = (value as readonly Json[]).map((v) => JSON.stringify(v));
      (value as readonly Json[])
        .slice(0, MOST_OF_A_LIST)
        .forEach((v, i) => walk(v, (inner) => around(`[${items.with(i, inner).join(', ')}]`)));
    } else if (typeof value === 'object' && value !== null) {
      const entries = Object.entries(value);
      for (const [name, v] of entries)
        walk(v, (inner) =>
          around(
            `{${entries.map(([n, other]) => `${JSON.stringify(n)}: ${n === name ? inner : JSON.stringify(other)}`).join(', ')}}`,
          ),
        );
    }
  };
  walk(valid, (inner) => inner);
  return texts;
};

/** The others of a list are alike. */
const MOST_OF_A_LIST = 2;

const isLeaf = (value: Json): boolean => typeof value !== 'object' || value === null;

/** What a value would be if it were run; each leaves a mark. */
const CODE = [
  'globalThis.pwned = 1',
  'process.exit(99)',
  'constructor.constructor("globalThis.pwned = 1")()',
  '(() => { globalThis.pwned = 1 })()',
  '${globalThis.pwned = 1}',
  '__proto__',
  'constructor',
  'toString()',
];

const TAGGED = [
  '!!js/function "function () { globalThis.pwned = 1 }"',
  '!!js/regexp "/x/"',
  '!<tag:yaml.org,2002:js/function> "() => (globalThis.pwned = 1)"',
  '!!python/object/apply:os.system ["exit"]',
  '!include "job.yaml"',
  '!ENV "PATH"',
];

/** Names that every object has, with something to make of it. */
const POLLUTING = [
  '"__proto__": {"pwned": 1}',
  '"constructor": {"prototype": {"pwned": 1}}',
  '"prototype": {"pwned": 1}',
  '"__defineGetter__": 1',
  '"toString": 1',
  '"hasOwnProperty": 1',
];

afterEach(() => {
  expect('pwned' in globalThis).toBe(false);
  expect('pwned' in {}).toBe(false);
  expect(Object.keys(Object.prototype)).toEqual([]);
});

describe.each(Object.entries(KINDS))('%s', (_, { valid, read }) => {
  test('is read', () => {
    expect(read(JSON.stringify(valid))).toMatchObject({ ok: true });
  });

  test('with code in place of any value: nothing is run, and there is an answer', () => {
    const texts = changedAt(valid, (value, i) =>
      isLeaf(value) ? JSON.stringify(CODE[i % CODE.length]) : undefined,
    );
    expect(texts.length).toBeGreaterThan(5);
    for (const text of texts) expect(typeof read(text).ok).toBe('boolean');
  });

  test('with a tag on any value: it is told, and nothing is made of it', () => {
    const texts = changedAt(valid, (value, i) =>
      isLeaf(value) ? TAGGED[i % TAGGED.length] : undefined,
    );
    expect(texts.length).toBeGreaterThan(5);
    for (const text of texts) expect(read(text)).toMatchObject({ ok: false });
  });

  test('with names that every object has, in any mapping: none of them is taken for what it is called', () => {
    const whole = read(JSON.stringify(valid));
    const texts = changedAt(valid, (value, i) =>
      isLeaf(value) || Array.isArray(value)
        ? undefined
        : `{${POLLUTING[i % POLLUTING.length]}, ${JSON.stringify(value).slice(1)}`,
    );
    expect(texts.length).toBeGreaterThan(0);
    for (const text of texts) {
      const found = read(text);
      // Told, or passed over where other names are passed over too.
      if (found.ok) expect(plain(found)).toEqual(plain(whole));
    }
  });

  test('with anchors that multiply, refer to themselves or are to be merged', () => {
    const bomb = [
      'a: &a [x, x, x, x, x, x, x, x, x]',
      ...'bcdefghij'
        .split('')
        .map((name, i) => `${name}: &${name} [${Array(9).fill(`*${'abcdefghij'[i]}`).join(', ')}]`),
    ].join('\n');
    const body = JSON.stringify(valid).slice(1, -1);
    for (const text of [
      bomb,
      `{${body}, "x": *nowhere}`,
      `${'['.repeat(100_000)}`,
      `${'{a: '.repeat(100_000)}`,
    ])
      expect(read(text)).toMatchObject({ ok: false });
    for (const text of [`{"x": &x [*x, *x], ${body}}`, `{"<<": {"pwned": 1}, ${body}}`])
      expect(typeof read(text).ok).toBe('boolean');
  });
});

describe('through the command', () => {
  const SECRET = 'the vineyard gate opens at 4711';

  /** A folder with something secret beside that of the work, and what a run there prints. */
  const work = (
    files: Readonly<Record<string, string>>,
  ): {
    readonly cwd: string;
    readonly run: (...args: string[]) => Promise<{ code: number; said: string }>;
  } => {
    const top = tempFolder();
    const cwd = join(top, 'work');
    execFileSync('mkdir', [cwd]);
    writeFileSync(join(top, 'secret.yaml'), `${SECRET}\n`);
    for (const [name, text] of Object.entries(files)) writeFileSync(join(cwd, name), text);
    return {
      cwd,
      run: async (...args) => {
        const before = everything(top);
        const { code, out, err } = await blankwright(args, cwd);
        expect(everything(top)).toEqual(before);
        return { code, said: out + err };
      },
    };
  };

  test.each(['/etc/hostname', '..\\secret.yaml', 'below/../../secret.yaml'])(
    'a job may not name the shop file %s',
    async (path) => {
      const { run } = work({
        'job.yaml': `shop: ${JSON.stringify(path)}\n${ringJob([ring('cover')])}`,
      });
      const { code, said } = await run('job', 'job.yaml');
      expect([code, said]).toEqual([
        2,
        expect.stringMatching(
          /^shop: given '.*'; allowed: a file in the folder of the job file, or below\./,
        ),
      ]);
      expect(said).not.toContain(SECRET);
    },
  );

  test.each(['../out', '/out', 'C:out', 'a\\..\\..\\b'])(
    'a job may not name the folder %s',
    (out) => {
      const read = readJob(
        ringJob([ring('cover')]).replace('papers: []', `papers: [], out: ${JSON.stringify(out)}`),
        TEMPLATES,
      );
      if (read.ok) throw new Error('it may');
      expect(read.problems[0]).toMatchObject({
        input: 'defaults.out',
        allowed: expect.stringContaining('a folder below that of the job file') as string,
      });
    },
  );

  test('paths and code in fields of every file are texts: none is read, none is run', async () => {
    const hostile = [
      '../secret.yaml',
      'process.exit(99)',
      '$(cat ../secret.yaml)',
      'file:secret.yaml',
      '`touch pwned`',
      'require("fs").writeFileSync("pwned", "")',
    ].map((text) => JSON.stringify(text));
    /** One after the other in place of each `?`. */
    const spoilt = (text: string): string => {
      let next = 0;
      return text.replaceAll('?', () => hostile[next++ % hostile.length] as string);
    };
    const cases: readonly (readonly [string, readonly string[]])[] = [
      [
        'title: ?\nmeasurements: { one: ?, two: ?, three: ? }\ndefaults: { material: ?, papers: [?] }\nparts:\n  - { family: ? }\n  - { family: ring, inputs: { outer: ?, holes: ? } }\n',
        ['job'],
      ],
      [
        'legA: ?\nlegB: ?\nwidth: ?\nholesA: ?\nmaterial: ?\nrule: ?\n',
        ['make', 'bracket-angle', '--from'],
      ],
      [
        'material: ?\nstrips:\n  - { flat: ?, legA: ?, legB: ?, angle: ?, stopAt: ? }\n',
        ['calibrate'],
      ],
      [
        'machine: { profile: ? }\npart: { thickness_mm: ?, panels: ?, bends: ? }\n',
        ['plan', '--panels'],
      ],
      ['{"name": ?, "bends": ?, "proof": ?}', ['proof', 'file.yaml', '--part']],
      [
        'name: ?\ncutters: ?\nhandover: { names: ? }\n',
        ['make', 'ring', '--outer', '100', '--inner', '40', '--bolt-circle', '70', '--shop'],
      ],
    ];
    for (const [text, command] of cases) {
      const { code, said } = await work({ 'file.yaml': spoilt(text) }).run(...command, 'file.yaml');
      expect([command, code]).toEqual([command, 2]);
      expect(said).not.toContain(SECRET);
    }
  });

  test('a link as the place to save bends or strips is not written through', async () => {
    // Of bends with K 0.4 and radius 2.5 on 3 mm.
    const rows = [90, 90, 45, 120, 120].map((angle) => {
      const { deductionMm } = bendFigures(
        { id: 'k', k: 0.4 },
        { thicknessMm: 3, insideRadiusMm: 2.5, angleDeg: angle },
        'outside',
      );
      return `  - { flat: 150, legA: 70, legB: ${(80 + deductionMm).toFixed(6)}, angle: ${angle} }\n`;
    });
    const { cwd, run } = work({
      'strips.yaml': `material: s275\nthickness: 3\nstrips:\n${rows.join('')}`,
    });
    expect((await run('calibrate', 'strips.yaml')).code).toBe(0);
    symlinkSync('../secret.yaml', join(cwd, 'shop.yaml'));
    symlinkSync('../new.yaml', join(cwd, 'other.yaml'));
    for (const shop of ['shop.yaml', 'other.yaml'])
      expect((await run('calibrate', 'strips.yaml', '--save', shop)).code).toBe(2);
    expect(readdirSync(cwd).toSorted()).toEqual(['other.yaml', 'shop.yaml', 'strips.yaml']);
  });

  test('only --template runs what a user gives, and its help says so', async () => {
    for (const command of ['make', 'describe']) {
      const { out } = await blankwright([command, 'ring', '--help'], tempFolder());
      expect(out.replace(/\s+/g, ' ')).toMatch(/--template .*runs the code in that file/);
    }
    for (const command of ['job', 'calibrate'])
      expect((await blankwright([command, '--help'], tempFolder())).out).not.toContain(
        '--template',
      );
  });
});

test('a name that would change what things are made of is told where it stands, not dropped', () => {
  for (const text of [
    'measurements:\n  __proto__: 5',
    'parts:\n  - family: ring\n    inputs: { outer: 90, __proto__: 3 }',
    '{"measurements": {"__proto__": {"a": 1}}}',
  ]) {
    const read = parseYaml(text);
    expect(read).toMatchObject({ ok: false, mend: 'nothing is called __proto__; leave it out' });
  }
});

test('measurements that build on each other in a row of any length are answered', () => {
  const row = (count: number): string =>
    [
      'title: cart',
      'measurements:',
      ...Array.from({ length: count }, (_, i) => `  size${count - i}: size${count - i - 1} + 1`),
      '  size0: 5',
      'parts:',
      '  - { family: ring, inputs: { outer: 90, inner: 50, boltCircle: 72, thickness: 2 } }',
    ].join('\n');
  expect(readJob(row(400), TEMPLATES).ok).toBe(true);
  const read = readJob(row(20_000), TEMPLATES);
  expect(read.ok ? [] : read.problems.map((p) => p.allowed)).toContain(
    'measurements that build on at most 500 others in a row',
  );
});
