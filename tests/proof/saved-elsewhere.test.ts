import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import type { Asked } from '../../src/contract/asked.ts';
import { FAMILIES } from '../../templates/index.ts';
import { askedIn } from '../helpers/asked-in.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { cpuSeconds } from '../helpers/cpu-seconds.ts';
import { examplesIn, largeSize } from '../helpers/extent.ts';
import { ezdxfAvailable, PYTHON } from '../helpers/ezdxf.ts';
import { madeOnce } from '../helpers/made-once.ts';
import { needsOutside } from '../helpers/needs-outside.ts';
import { proofOf } from '../helpers/proved.ts';
import { AS_IT_IS, saved, shapesOf } from '../helpers/saved-dxf.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

interface Blank {
  readonly name: string;
  readonly dxf: string;
  readonly asked: Asked;
}

const blanksOf = async (
  family: string,
  options: Partial<typeof UNPLANNED> = {},
): Promise<Blank[]> => {
  const template = await loadFamily(family);
  return template.examples.flatMap(({ inputs }) => {
    const made = madeOnce(template, inputs, { ...UNPLANNED, ...options });
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    return made.parts.flatMap((p): Blank[] => {
      const dxf = p.files().find((f) => f.name.endsWith('.dxf'))?.contents;
      return dxf === undefined ? [] : [{ name: p.result.name, dxf, asked: askedIn(p.result) }];
    });
  });
};

const rules = (dxf: string, asked: Asked): string[] =>
  [...new Set(proofOf(dxf, asked).findings.map((f) => f.rule))].toSorted();

/** What a program does to a file with holes and fold lines, and what the proof tells of it. */
const DONE: readonly (readonly [does: readonly string[], told: readonly string[]])[] = [
  [[], []],
  [['ellipses'], []],
  [['splines'], []],
  [['exploded'], []],
  // It leaves light polylines out of a release that does not have them.
  [['r12'], ['contour-lost', 'unit-lost']],
  [['polylines', 'r12'], ['unit-lost']],
  [['r2018', 'ellipses'], []],
  [['r2018', 'polylines', 'hatched'], ['no-line']],
  [['one_block'], []],
  [['ellipses', 'exploded', 'one_block'], []],
  [['moved'], ['file-moved']],
  [['off'], ['contour-lost', 'lines-hidden', 'proof-failed']],
  [['frozen'], ['contour-lost', 'lines-hidden', 'proof-failed']],
  [
    ['one_block', 'off'],
    ['contour-lost', 'lines-hidden', 'proof-failed'],
  ],
  [['paper'], ['contour-lost', 'lines-on-paper', 'proof-failed']],
  [['unfolded'], ['fold-line-lost']],
  [['inches'], ['file-scaled', 'proof-failed']],
  [['metres'], ['file-scaled', 'proof-failed']],
  [['unitless'], ['unit-lost']],
];

test('ezdxf saves a bracket in many ways: what was done to it is told, and nothing else', async (ctx) => {
  needsOutside(ctx, 'ezdxf', ezdxfAvailable);
  const [blank] = await blanksOf('bracket-angle');
  if (blank === undefined) throw new Error('no bracket');
  const folder = mkdtempSync(join(tmpdir(), 'proof-'));
  try {
    writeFileSync(join(folder, 'made.dxf'), blank.dxf);
    const jobs = DONE.map(([does], i) => ({
      from: join(folder, 'made.dxf'),
      to: join(folder, `${i}.dxf`),
      does,
    }));
    const run = spawnSync(
      PYTHON ?? 'python3',
      [fileURLToPath(new URL('../helpers/resave.py', import.meta.url))],
      { input: JSON.stringify(jobs), encoding: 'utf8' },
    );
    expect([run.status, run.stderr]).toEqual([0, '']);
    DONE.forEach(([does, told], i) => {
      const found = rules(readFileSync(join(folder, `${i}.dxf`), 'utf8'), blank.asked);
      expect([does, found]).toEqual([does, told]);
    });
  } finally {
    rmSync(folder, { recursive: true });
  }
});

describe('what was in the file when it was made', () => {
  test('fold lines that were left out are none that were lost; a unit that was never stated neither', async () => {
    for (const options of [{ cutOnly: true }, { dxfVersion: 'r12' as const }]) {
      for (const { dxf, asked } of await blanksOf('tray', options))
        expect(rules(dxf, asked).filter((rule) => rule !== 'fold-lines-left-out')).toEqual([]);
    }
  });

  test('of a part whose JSON does not say it is not known', async () => {
    const [blank] = await blanksOf('bracket-angle');
    if (blank === undefined) throw new Error('no bracket');
    const { file: _, ...asked } = blank.asked;
    const unfolded = blank.dxf.replace(/(\n8\nFOLD-UP\n10\n)/g, '\n8\nNOTE\n10\n');
    expect([rules(unfolded, asked), rules(unfolded, blank.asked)]).toEqual([
      ['fold-lines-left-out'],
      ['fold-line-lost'],
    ]);
  });

  test('a file in inches that states none is read in inches', async () => {
    const template = await loadFamily('bracket-angle');
    const [cutter] = UNPLANNED.shop?.cutters ?? [];
    if (cutter === undefined || UNPLANNED.shop === undefined) throw new Error('no cutter');
    const inch = {
      ...UNPLANNED.shop,
      cutters: [{ ...cutter, import: { ...cutter.import, units: 'inch' as const } }],
    };
    const made = madeOnce(template, template.examples[0]?.inputs ?? {}, {
      ...UNPLANNED,
      shop: inch,
      dxfVersion: 'r12',
    });
    if (!made.ok) throw new Error('not made');
    for (const p of made.parts) {
      const asked = askedIn(p.result);
      expect(asked.file).toEqual({ unit: 'inch', statesUnit: false, foldLines: true });
      const dxf = p.files().find((f) => f.name.endsWith('.dxf'))?.contents ?? '';
      expect(rules(dxf, asked)).toEqual([]);
    }
  });
});

describe('a blank that is cut only, shifted and turned', () => {
  test.each([...FAMILIES.keys()])('%s: is not mirrored', async (family) => {
    const template = await loadFamily(family);
    for (const { inputs } of examplesIn(template)) {
      const made = madeOnce(template, inputs, { ...UNPLANNED, cutOnly: true });
      if (!made.ok) throw new Error('not made');
      for (const p of made.parts) {
        if (p.drawing === undefined || p.result.proof === null) continue;
        const shapes = shapesOf(
          p.drawing.items.filter((item) => item.role === 'outline' || item.role === 'hole'),
        );
        const asked = askedIn(p.result);
        for (const turnDeg of [0, 90, 180, 217]) {
          const found = rules(
            saved(shapes, { ...AS_IT_IS, move: [310, -70], turnDeg }),
            asked,
          ).filter((rule) => rule !== 'fold-lines-left-out');
          expect([p.result.name, turnDeg, found]).toEqual([p.result.name, turnDeg, ['file-moved']]);
        }
      }
    }
  });
});

test('a file of a hundred thousand corners gets its answer within seconds', async () => {
  const [blank] = await blanksOf('bracket-angle');
  if (blank === undefined) throw new Error('no bracket');
  const corners = Array.from({ length: largeSize(90_000) }, (_, k) => ({
    x: 1000 * Math.cos(k / 14_323.9),
    y: 1000 * Math.sin(k / 14_323.9),
    bulge: 0,
  }));
  for (const loops of ['light', 'exploded'] as const) {
    const text = saved([{ kind: 'loop', layer: 'OUTLINE', loop: corners }], { ...AS_IT_IS, loops });
    let told: readonly string[] = [];
    expect(cpuSeconds(() => (told = rules(text, blank.asked)))).toBeLessThan(20);
    expect(told).toEqual(
      expect.arrayContaining(['contour-lost', 'fold-line-lost', 'proof-failed']),
    );
  }
});
