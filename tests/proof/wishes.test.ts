import { describe, expect, test } from 'vitest';
import { describeInputs, readInputs } from '../../src/forms/read.ts';
import type { Built, GivenPart, Template } from '../../src/forms/template.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { FAMILIES } from '../../templates/index.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { inTurns, oneOfEach } from '../helpers/extent.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

/**
 * What a family's inputs mean is measured on the folded file, by faces and edges, whatever the part
 * was built from.
 */

const TEMPLATES = await Promise.all([...FAMILIES.keys()].map(loadFamily));
const examplesOf = ({ family, examples }: Template, place: number) =>
  examples.map(({ inputs }, i) => [`${family} ${i + 1}`, family, inputs, place] as const);

describe.each(oneOfEach(TEMPLATES.flatMap(examplesOf), ([, family]) => family))(
  '%s',
  (_, family, inputs, place) => {
    test.each(inTurns(['outside', 'inside'], place, 2))(
      'says what its inputs mean, and is so: %s',
      async (measure) => {
        const made = makeParts(
          await loadFamily(family),
          { ...inputs, measure, hand: 'both' },
          UNPLANNED,
        );
        if (!made.ok) throw new Error(JSON.stringify(made.problems));
        for (const { result } of made.parts) {
          const { measures = [], angles = [] } = result.proof ?? {};
          const [lengths, turns] = [
            measures.filter((m) => m.input !== undefined),
            angles.filter((a) => a.input !== undefined),
          ];
          // A plate of a duct whose inside is asked for is known by its hole alone; a piece of panels
          // that takes its size from another has no figure of its own, and a flange that is welded
          // has its length from the face that it is welded to. The flat sheets of a measured room,
          // and a wall of a duct by itself, may have no two edges that run alongside.
          const isPiece =
            (family === 'panels' && made.parts.length > 2) ||
            (['tank-plan', 'tank-sections', 'duct-between'].includes(family) &&
              result.bends.length === 0) ||
            inputs['weldAt'] !== undefined;
          expect(lengths.length + turns.length, result.name).toBeGreaterThan(isPiece ? -1 : 0);
          for (const m of lengths)
            expect(m.foundMm, `${result.name}, ${m.name}`).toSatisfy(
              (found) => typeof found === 'number' && Math.abs(found - m.askedMm) < 1e-3,
            );
          for (const a of turns)
            expect(a.foundDeg, `${result.name}, ${a.name}`).toSatisfy(
              (found) => typeof found === 'number' && Math.abs(found - a.askedDeg) < 1e-3,
            );
        }
      },
    );
  },
);

/**
 * Inputs that no length or angle between faces, edges and holes of one blank shows: what is counted
 * or looks for a place of its own, what is cut off or trimmed away, and what two blanks have
 * together.
 */
const NOT_STATED: Readonly<Record<string, readonly string[]>> = {
  baffle: [
    'heightRight',
    'heightShallow',
    'limber',
    'longestBay',
    'roofRadius',
    'swageWidth',
    'tankLength',
    'vent',
    'wallRadius',
  ],
  'bracket-gusset': ['gussetHeight'],
  'duct-between': ['chordOff', 'lap', 'lipPitch', 'sheetLength', 'sheetWidth'],
  'duct-box': [
    'lipPitch',
    'sheetLength',
    'sheetWidth',
    'stubMargin',
    'stubRight',
    'stubUp',
    'stubWall',
  ],
  'heel-rest': ['gripLength', 'gripMargin', 'gripPitch', 'lift'],
  'neck-plate': ['boltStart'],
  plate: ['pointsTurn', 'pointsX', 'pointsY', 'slotLength'],
  ring: ['boltStart'],
  shell: ['sheetLength'],
  'strut-brace': ['edge', 'notchWidth', 'slotLength', 'tubeBeyond', 'tubeRise', 'tubeSpan'],
  tank: ['dipStep', 'heightShallow', 'longestBay'],
  'tank-plan': [
    'baffleGap',
    'longestBay',
    'outlineAt',
    'outlineOverAt',
    'pickupEnd',
    'senderArm',
    'senderDown',
    'senderEmpty',
    'senderFloat',
    'senderFoot',
    'senderFull',
    'senderPivot',
    'senderStep',
    'senderTurn',
    'senderUp',
    'tabWidth',
    'tilt',
  ],
  'tank-sections': ['baffleGap', 'limber', 'longestBay', 'pickupEnd', 'vent'],
  'test-strip': ['flatLength', 'markDistance', 'nick'],
  tray: ['cableAt', 'cableDepth', 'cableWidth'],
  // Of beads and of what a louvre is formed to there are marks alone; a lance is looked for by its
  // middle.
  'vent-panel': [
    'beadClear',
    'beadPitch',
    'beadWidth',
    'beadsAt',
    'louvreDepth',
    'louvreHeight',
    'louvreLength',
  ],
};

/** The part of other inputs, with the wishes of these. */
const bad = (built: Built<GivenPart>, wanted: Built<GivenPart>): Built<GivenPart> => {
  const wishesOf = (id: string | null): GivenPart['wishes'] =>
    (id === null ? wanted.part : wanted.pieces?.find((p) => p.id === id)?.part)?.wishes ?? [];
  const put = (part: GivenPart, id: string | null): GivenPart => ({
    ...part,
    wishes: wishesOf(id) ?? [],
  });
  return {
    ...built,
    ...(built.part !== undefined && { part: put(built.part, null) }),
    ...(built.pieces !== undefined && {
      pieces: built.pieces.map((p) => ({ ...p, part: put(p.part, p.id) })),
    }),
  };
};

describe.each(inTurns(TEMPLATES, 0, 2).map((t) => [t.family, t] as const))(
  '%s built from wrong figures',
  (family, template) => {
    test('is stopped by the proof', () => {
      const [caught, missed] = [new Set<string>(), new Set<string>()];
      for (const { inputs } of template.examples) {
        const read = readInputs(template, { ...inputs, hand: 'left' });
        if (!read.ok) throw new Error(JSON.stringify(read.problems));
        const wanted = template.build(read.values);
        for (const { name, kind, common } of describeInputs(template)) {
          const value: unknown = read.values[name as keyof typeof read.values];
          if (common || (kind !== 'length' && kind !== 'angle') || typeof value !== 'number')
            continue;
          for (const by of [0.4, -0.4]) {
            // One way in which an input is seen to be wrong is enough.
            if (caught.has(name)) break;
            const wrong: Template = {
              ...template,
              build: () => bad(template.build({ ...read.values, [name]: value + by }), wanted),
            };
            if (value + by < 0 && value >= 0) continue;
            const made = makeParts(wrong, { ...inputs, hand: 'left' }, UNPLANNED);
            const stops = made.ok
              ? made.parts.flatMap((p) =>
                  p.result.findings.filter((f) => f.severity === 'stop').map((f) => f.rule),
                )
              : [];
            if (stops.every((rule) => rule === 'proof-failed'))
              (stops.length > 0 ? caught : missed).add(name);
          }
        }
      }
      expect([...missed].filter((name) => !caught.has(name)).sort()).toEqual(
        NOT_STATED[family] ?? [],
      );
      // A plate has hardly a length by itself, and panels have none: tests/panels/spoilt does theirs.
      expect(caught.size).toBeGreaterThan(family === 'plate' || family === 'panels' ? -1 : 1);
    });
  },
);

test('a hole in the wrong place is told by the input it came from', async () => {
  const template = await loadFamily('bracket-angle');
  const inputs = { legA: 60, legB: 40, width: 80, thickness: 3, holesA: '35,20,M8' };
  const swapped: Template = {
    ...template,
    build: (v) => {
      const built = template.build(v);
      const panels =
        built.part?.panels.map((p) => ({
          ...p,
          cutouts: (p.cutouts ?? []).map((c) =>
            c.kind === 'round' ? { ...c, centre: [c.centre[1], c.centre[0]] as const } : c,
          ),
        })) ?? [];
      return built.part === undefined ? built : { ...built, part: { ...built.part, panels } };
    },
  };
  const made = makeParts(swapped, inputs, UNPLANNED);
  const stop = made.ok
    ? made.parts[0]?.result.findings.find((f) => f.rule === 'proof-failed')?.message
    : '';
  expect(stop).toMatch(/h1 \(holesA 1\) from fold .* instead of 35/);
  expect(stop).toMatch(/h1 \(holesA 1\) from left .* instead of 20/);
});
