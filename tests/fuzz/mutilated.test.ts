import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readStrips } from '../../src/calibrate/read.ts';
import { DEFAULT_SHOP, DEFAULT_SHOP_SOURCES } from '../../src/data/shop-default.ts';
import { readDistances } from '../../src/forms/distances.ts';
import { parseYaml } from '../../src/forms/yaml.ts';
import { inspectDxf, type InspectOptions } from '../../src/inspect/inspect.ts';
import { markedSvg } from '../../src/inspect/marked-svg.ts';
import { mendedCopy } from '../../src/inspect/mend.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { readJob } from '../../src/jobfile/read.ts';
import { readCase } from '../../src/plan/of-panels/panels.ts';
import { proveDxf } from '../../src/proof/proof.ts';
import { readPart } from '../../src/proof/read-part.ts';
import { readShop } from '../../src/shop/read.ts';
import { shopEntries, writeShop } from '../../src/shop/write.ts';
import { FAMILIES } from '../../templates/index.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { mutilation } from '../helpers/mutilate.ts';
import { angle } from '../helpers/parts.ts';
import { blankOf } from '../helpers/proved.ts';
import { FOLDING } from '../plan/cases.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

const blank = blankOf(angle(60, 40, 80, 90, 3, 3));
const oldBlank = blankOf(angle(60, 40, 80, 90, 3, 3), { id: 'din6935' }, 'r12');
if (blank === undefined || oldBlank === undefined) throw new Error('not flat');
const { asked } = blank;

const TEMPLATES = new Map(
  await Promise.all(
    [...FAMILIES].map(async ([name, load]) => [name, (await load()).default] as const),
  ),
);

/** What a reader says of a text that it does not take: something, on one line. */
const expectSaid = (...texts: readonly (string | undefined)[]): void => {
  for (const text of texts) expect(text ?? 'nothing').toMatch(/^[^\n]+$/);
};

const proved = (text: string): void => {
  const answer = proveDxf(text, asked);
  if (!answer.ok) return expectSaid(answer.reason);
  expect(Number.isFinite(answer.proof.worstMm)).toBe(true);
  expectSaid(...answer.proof.findings.map((f) => f.message));
};

const OPTIONS: InspectOptions = {
  shop: DEFAULT_SHOP,
  units: undefined,
  thicknessMm: 2,
  material: 'steel',
  gapMm: 0.5,
  shortMm: 0.1,
  errorMm: 0.02,
};

/** All that the command makes of it: what is told, the mended copy, and the picture. */
const inspected = (text: string): void => {
  const found = inspectDxf(new TextEncoder().encode(text), OPTIONS);
  if (!found.ok) return expectSaid(found.reason, found.mend);
  expectSaid(...found.inspection.findings.map((f) => f.message));
  // Both writers throw at a number that is none; names of layers may well be called so.
  expect(markedSvg(found, 'a mark')).toMatch(/<\/svg>\s*$/);
  const mended = mendedCopy(found, OPTIONS, 'mended', 'a mark');
  expectSaid(...(mended.ok ? mended.changes : mended.stops.map((f) => f.message)));
};

/** A block placed twice, an ellipse, a spline and a text, as other programs save them. */
const curves = [
  '0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1015\n9\n$INSUNITS\n70\n4\n0\nENDSEC',
  '0\nSECTION\n2\nBLOCKS\n0\nBLOCK\n2\nB\n10\n0\n20\n0\n0\nCIRCLE\n8\n0\n10\n5\n20\n5\n40\n3\n0\nARC\n8\n0\n10\n5\n20\n5\n40\n4\n50\n10\n51\n200\n0\nENDBLK\n0\nENDSEC',
  '0\nSECTION\n2\nENTITIES\n0\nINSERT\n8\nA\n2\nB\n10\n20\n20\n20\n41\n2\n42\n1\n50\n30\n0\nINSERT\n8\nA\n2\nB\n10\n60\n20\n20',
  '0\nELLIPSE\n8\nA\n10\n50\n20\n50\n11\n20\n21\n5\n40\n0.5\n41\n0\n42\n6.283185307\n0\nTEXT\n8\nN\n10\n1\n20\n1\n40\n3\n1\nhello',
  '0\nSPLINE\n8\nA\n70\n8\n71\n3\n72\n8\n73\n4\n40\n0\n40\n0\n40\n0\n40\n0\n40\n1\n40\n1\n40\n1\n40\n1\n10\n0\n20\n0\n10\n10\n20\n40\n10\n60\n20\n-20\n10\n90\n20\n10',
  '0\nLWPOLYLINE\n8\nO\n90\n4\n70\n1\n10\n-10\n20\n-10\n10\n120\n20\n-10\n42\n0.4\n10\n120\n20\n90\n10\n-10\n20\n90\n0\nENDSEC\n0\nEOF\n',
].join('\n');

const inputs = (text: string): void => {
  const parsed = parseYaml(text);
  if (!parsed.ok) return expectSaid(parsed.given, parsed.mend);
  if (typeof parsed.value !== 'object' || parsed.value === null) return;
  const { family, ...raw } = parsed.value as Record<string, unknown>;
  const template =
    TEMPLATES.get(typeof family === 'string' ? family : '') ?? TEMPLATES.get('bracket-angle');
  if (template === undefined) throw new Error('no family');
  const made = makeParts(template, raw, UNPLANNED);
  if (!made.ok) expectSaid(...made.problems.flatMap((p) => [p.given, p.allowed, p.mend]));
};

const problems = (read: {
  readonly ok: boolean;
  readonly problems?: readonly {
    readonly given: string;
    readonly allowed: string;
    readonly mend?: string;
  }[];
}): void => {
  if (!read.ok) expectSaid(...(read.problems ?? []).flatMap((p) => [p.given, p.allowed, p.mend]));
};

const parsed = (text: string): unknown => {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return undefined;
  }
};

const partJson = JSON.stringify({
  name: 'post',
  material: { id: 's275', thicknessMm: 3 },
  bends: asked.bends,
  files: ['out/post.dxf'],
  proof: {
    worstMm: 0,
    measures: asked.measures,
    angles: asked.angles,
    made: { measure: asked.measure, kerfMm: 0, panels: asked.panels, cut: asked.cut },
  },
});

/**
 * A good text of each kind of file that the tool reads, and its reader, which gives an answer
 * whatever the text.
 */
const READERS: readonly (readonly [
  name: string,
  texts: readonly string[],
  read: (text: string) => void,
])[] = [
  ['a DXF', [blank.dxf, oldBlank.dxf], proved],
  ['a DXF of whatever program', [blank.dxf, oldBlank.dxf, curves], inspected],
  [
    'what a DXF is proved against',
    [partJson],
    (text) => {
      const read = readPart(parsed(text), 'post.dxf');
      if (read.ok) proved2(read.asked);
      else expectSaid(read.given, read.mend);
    },
  ],
  ['inputs in YAML', [readFileSync('templates/demo/seat-post.yaml', 'utf8')], inputs],
  [
    'a job file',
    [readFileSync('templates/demo/cart.job.yaml', 'utf8')],
    (text) => problems(readJob(text, TEMPLATES)),
  ],
  [
    'a shop file',
    [writeShop(shopEntries(DEFAULT_SHOP, DEFAULT_SHOP_SOURCES), 'shop')],
    (text) => problems(readShop(text)),
  ],
  [
    'a part as panels',
    FOLDING.cases.map((c) => JSON.stringify(c)),
    (text) => problems(readCase(parsed(text))),
  ],
  [
    'strips in YAML',
    [
      'strips:\n  - { material: dc01, thickness: 1.5, machine: folder, tool: nose 1, flat: 100, legA: 51.2, legB: 51.3, angle: 90 }\n',
    ],
    (text) => problems(readStrips(text, 'yaml')),
  ],
  [
    'strips in CSV',
    [
      'material,thickness,machine,tool,flat,legA,legB,angle\ndc01,1.5,folder,nose 1,100,51.2,51.3,90\n',
    ],
    (text) => problems(readStrips(text, 'csv')),
  ],
  [
    'distances',
    ['A-B: 312\nA-C: 188.5\nB-C: 240\nA-B-C: left\n'],
    (text) => {
      const read = readDistances(text);
      if (!read.ok) expectSaid(read.given, read.allowed, read.mend);
    },
  ],
];

const proved2 = (other: typeof asked): void => {
  const answer = proveDxf(blank.dxf, other);
  if (!answer.ok) expectSaid(answer.reason);
};

describe('a file that was mutilated gets an answer', () => {
  test.each(READERS)('%s', (_, texts, read) => {
    fc.assert(
      fc.property(fc.constantFrom(...texts), mutilation, (text, mutilate) => read(mutilate(text))),
      { numRuns: fuzzRuns(250) },
    );
  });
});
