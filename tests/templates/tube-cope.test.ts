import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { checkTemplate } from '../../src/use/check-template.ts';
import { makeFiles } from '../../src/use/make/make-files.ts';
import { makeTexts } from '../../src/use/make/make-text.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import type { CopedTube } from '../../src/tube/cope/coped-part.ts';
import { copedMesh } from '../../src/tube/cope/coped-mesh.ts';
import tubeCope from '../../templates/tube-cope/index.ts';
import { tempFolder } from '../helpers/command.ts';
import { examplesIn } from '../helpers/extent.ts';
import { validateGltf } from '../helpers/gltf-validator.ts';
import { MADE_COPED } from '../helpers/make-contract.ts';
import { meshVolume, openEdges } from '../helpers/mesh.ts';
import { needsOutside } from '../helpers/needs-outside.ts';
import { hasPoppler } from '../helpers/poppler.ts';
import { published } from '../helpers/published.ts';
import { copedOf } from '../helpers/tubes-of-kind.ts';

const CROSS = { diameter: 40, wall: 2, header: 60, angle: 60 };

const made = (inputs: Readonly<Record<string, unknown>>) => {
  const all = makeParts(tubeCope, inputs);
  if (!all.ok) throw new Error(JSON.stringify(all.problems));
  return all;
};

const tubesOf = (inputs: Readonly<Record<string, unknown>>): readonly CopedTube[] =>
  copedOf(made(inputs).tubes).map(({ tube }) => tube);

const rulesOf = (inputs: Readonly<Record<string, unknown>>): string[] => {
  const { parts, tubes } = made(inputs);
  return [...parts, ...tubes].flatMap(({ result }) =>
    result.findings.filter(({ rule }) => rule.startsWith('cope-')).map(({ rule }) => rule),
  );
};

test('it is a sound template, and its examples are made', () => {
  expect(checkTemplate(tubeCope)).toEqual([]);
  for (const { inputs } of examplesIn(tubeCope)) {
    const { parts, tubes } = made(inputs);
    expect(parts).toEqual([]);
    expect(tubes.length).toBeGreaterThan(0);
    for (const { result } of tubes)
      expect(result.findings.filter(({ severity }) => severity === 'stop')).toEqual([]);
  }
});

describe('what programs are told', () => {
  test('the curve of the whole wall, as published, from the node on', async () => {
    const { given, expect: asked, tolerance } = published('cope', 'cope-wall-60');
    const files = await makeFiles({ template: tubeCope, inputs: CROSS });
    if (!files.ok) throw new Error('not made');
    const parsed = MADE_COPED.parse(JSON.parse(JSON.stringify(files.result)));
    const [part] = parsed.parts;
    if (part === undefined) throw new Error('no cope');
    const { curve, node, wrapMm } = part.cope;
    (given['theta_deg'] as number[]).forEach((deg, i) => {
      const [before, after] = [curve[Math.floor(deg)], curve[Math.ceil(deg)]];
      const share = deg - Math.floor(deg);
      const mm = (before?.[1] ?? NaN) * (1 - share) + (after?.[1] ?? NaN) * share;
      expect(Math.abs(mm - ((asked['w_fit'] as number[])[i] as number))).toBeLessThan(tolerance);
    });
    expect(curve).toHaveLength(361);
    expect(wrapMm).toBeCloseTo(Math.PI * 40.1, 9);
    // The next whole centimetre that leaves 30 mm of paper over the longest place of 46.19.
    expect(node).toBe(80);
    expect(part.tube.bends).toEqual([]);
    expect(part.tube.cutLengthMm).toBeCloseTo(100 + 46.188 - 24, 3);
  });

  test('the other hand is the mirror image, and both ends are told', () => {
    const [left, right] = tubesOf({
      ...CROSS,
      offset: 6,
      length: 300,
      other: 'plate',
      otherAngle: 50,
      clocking: 70,
      hand: 'both',
    });
    if (left === undefined || right === undefined) throw new Error('two hands');
    for (let deg = 0; deg < 360; deg += 7) {
      expect(right.startMm(20, -deg)).toBeCloseTo(left.startMm(20, deg), 6);
      expect(right.endMm(20, -deg)).toBeCloseTo(left.endMm(20, deg), 6);
    }
    expect(right.massKg).toBeCloseTo(left.massKg, 9);
    expect(left.ends).toHaveLength(2);
  });

  test('a person reads the length, the patterns and the depths', async () => {
    const files = await makeFiles({ template: tubeCope, inputs: CROSS });
    if (!files.ok) throw new Error('not made');
    const text = makeTexts(files.result).join('\n');
    expect(text).toContain('e235 tube, 40 x 2 mm');
    expect(text).toMatch(/tube +cut 122\.2 mm off the bar/);
    expect(text).toMatch(/pattern 126 round/);
  });
});

describe('its files', () => {
  test('pattern, card, sheet and model, each read by a program of somebody else', async (ctx) => {
    needsOutside(ctx, 'poppler', hasPoppler);
    const files = await makeFiles({
      template: tubeCope,
      inputs: { ...CROSS, name: 'stay', offset: 4 },
      outputs: ['card', 'sheet', 'model'],
    });
    if (!files.ok) throw new Error('not made');
    expect(files.files.map(({ name }) => name)).toEqual([
      'stay.dxf',
      'stay.svg',
      'stay-card.pdf',
      'stay-sheet.html',
      'stay-sheet.pdf',
      'stay.glb',
      'stay.stl',
    ]);
    const contents = (name: string): Uint8Array | string => {
      const found = files.files.find((file) => file.name === name);
      if (found === undefined) throw new Error(name);
      return found.contents;
    };
    const glb = await validateGltf(contents('stay.glb') as Uint8Array);
    expect(glb.issues.numErrors + glb.issues.numWarnings).toBe(0);
    const textOf = (name: string): string => {
      const file = join(tempFolder(), name);
      writeFileSync(file, contents(name));
      return spawnSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' }).stdout;
    };
    // Both hands are told apart on the pattern itself.
    const pair = await makeFiles({ template: tubeCope, inputs: { ...CROSS, hand: 'both' } });
    const dxf = pair.ok ? pair.files.filter(({ name }) => name.endsWith('.dxf')) : [];
    expect(dxf.map(({ contents: text }) => /tube-cope-[LR]/.exec(String(text))?.[0])).toEqual([
      'tube-cope-L',
      'tube-cope-R',
    ]);
    for (const word of ['stay on 60 at 60 deg, 4 beside', '100 mm', 'hot work', 'from node'])
      expect(textOf('stay-card.pdf')).toContain(word);
    for (const word of ['Depths at twelve places', '45.88', 'licensed practice', 'strength'])
      expect(textOf('stay-sheet.pdf')).toContain(word);
  });

  test('its model is closed, and holds what the tube weighs', () => {
    for (const { inputs } of examplesIn(tubeCope))
      for (const tube of tubesOf(inputs)) {
        const mesh = copedMesh(tube, 'tube', 0.005);
        const { triangles, edges } = mesh;
        expect(openEdges(triangles.map(({ corners }) => corners))).toEqual([]);
        for (const {
          ends: [from, to],
          triangles: [one, other],
        } of edges) {
          const runs = (i: number, a: number, b: number): boolean => {
            const { corners } = triangles[i] as (typeof triangles)[number];
            return corners.some((c, k) => c === a && corners[(k + 1) % 3] === b);
          };
          expect(runs(one, from, to) && runs(other, to, from)).toBe(true);
        }
        const kg = meshVolume(mesh) * 1e-9 * tube.grade.densityKgM3.value;
        expect(Math.abs(kg - tube.massKg)).toBeLessThan(1e-3 * tube.massKg);
      }
  });
});

test('its STEP is told to be fitted, which the pattern is not', async () => {
  const files = await makeFiles({ template: tubeCope, inputs: CROSS, outputs: ['step'] });
  if (!files.ok) throw new Error(JSON.stringify(files.problems));
  expect(files.files.map(({ name }) => name)).toContain('tube-cope.step');
  expect(files.findings.map(({ rule }) => rule)).toContain('cope-step-fitted');
});

describe('what is refused, and what is remarked', () => {
  test.each([
    [{ ...CROSS, header: 39 }, 'cope-overhangs'],
    [{ ...CROSS, offset: 10.1 }, 'cope-overhangs'],
    [{ ...CROSS, offset: -200 }, 'cope-overhangs'],
    [{ ...CROSS, wall: 20.5 }, 'cope-no-bore'],
    [{ ...CROSS, length: 30 }, 'cope-ends-meet'],
    [{ ...CROSS, beside: 30 }, 'cope-beside-thinner'],
    [{ ...CROSS, beside: 40, besideAngle: 62 }, 'cope-alongside'],
    [{ ...CROSS, on: 'bend', bendRadius: 25 }, 'cope-bend-in-tube'],
    [{ ...CROSS, angle: 25 }, 'cope-acute'],
    [{ ...CROSS, diameter: 20, angle: 90 }, 'cope-hole-saw'],
    [CROSS, 'cope-square-cut'],
  ])('%j: %s', (inputs, rule) => {
    expect(rulesOf(inputs)).toContain(rule);
  });

  test.each([
    [{ ...CROSS, angle: 0 }, 'angle'],
    [{ ...CROSS, angle: -30 }, 'angle'],
    [{ ...CROSS, diameter: 0 }, 'diameter'],
    [{ ...CROSS, header: 'x' }, 'header'],
    [{ ...CROSS, material: 'oak' }, 'material'],
    [{ wall: 2 }, 'diameter'],
  ])('%j: %s is a problem', (inputs, input) => {
    const all = makeParts(tubeCope, inputs);
    expect(all.ok ? [] : all.problems.map((p) => p.input)).toContain(input);
  });

  test('a mend of an overhang is one', () => {
    const [finding] = made({ ...CROSS, header: 39 }).parts.flatMap(({ result }) =>
      result.findings.filter(({ rule }) => rule === 'cope-overhangs'),
    );
    const mend = finding?.mends?.[0];
    expect(mend?.input).toBe('header');
    expect(rulesOf({ ...CROSS, header: 40 })).not.toContain('cope-overhangs');
  });
});
