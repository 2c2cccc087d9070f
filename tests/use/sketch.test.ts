import { rolledBody } from '../../src/fold/rolled-body.ts';
import { describe, expect, test } from 'vitest';
import { FAMILIES } from '../../templates/index.ts';
import { describeInputs } from '../../src/forms/read.ts';
import { seatedPoses } from '../../src/use/pack/space-dimensions.ts';
import { familySketches } from '../../src/use/sketch/family-sketches.ts';
import { inputOf, lengthPlaces } from '../../src/use/sketch/lettered-lengths.ts';
import { foldedMesh } from '../../src/solid/folded-mesh.ts';
import type { Template } from '../../src/forms/template.ts';
import { dot3, length3, sub3, unit3 } from '../../src/geometry/vec3.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import { tubeHoles } from '../../src/use/sketch/tube-holes.ts';
import { anglePlaces } from '../../src/use/sketch/angle-places.ts';
import { IS_FULL } from '../helpers/extent.ts';
import { madeOnce } from '../helpers/made-once.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

const SIZE = { widthMm: 110, heightMm: 84 };

const families = [...FAMILIES].filter(
  ([name]) => IS_FULL || ['bracket-hat', 'heel-rest', 'ring', 'strap', 'tray'].includes(name),
);

describe('sketches of families', () => {
  test.each(families)(
    '%s shows each length and angle that must be given, by its letter',
    async (_, load) => {
      const template = (await load()).default;
      const sketches = familySketches(template, SIZE);
      expect(sketches.length).toBeGreaterThan(0);
      const shown = Object.assign({}, ...sketches.map(({ letters }) => letters)) as object;
      const described = describeInputs(template);
      const wanted = described.flatMap((i) =>
        i.required && (i.kind === 'length' || i.kind === 'angle') ? [[i.name, i.letter]] : [],
      );
      expect(Object.entries(shown)).toEqual(expect.arrayContaining(wanted));
      // A letter is drawn once, where its spot says, and nothing is drawn outside the picture.
      for (const { picture, spots, letters } of sketches) {
        const labels = picture.items.filter((item) => item.kind === 'label');
        expect(labels.map(({ text }) => text).toSorted()).toEqual(
          Object.values(letters).toSorted(),
        );
        for (const { of, box } of spots) {
          const label = labels.find(({ text }) => text === letters[of]);
          expect(label?.at[0]).toBeGreaterThan(box.minX);
          expect(label?.at[0]).toBeLessThan(box.maxX);
          expect(box.minX).toBeGreaterThanOrEqual(0);
          expect(box.maxY).toBeLessThanOrEqual(SIZE.heightMm);
        }
      }
    },
  );

  test.each(families)(
    '%s: what a letter spans is metal at both ends, as far apart as the input says',
    async (_, load) => {
      const template = (await load()).default;
      const made = madeOnce(template, template.examples[0]?.inputs ?? {}, { foldAt: 'service' });
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      for (const { part, flat, result } of made.parts) {
        const mesh = part === undefined ? undefined : foldedMesh(part, flat, 0.01);
        if (part === undefined || mesh === undefined) continue;
        expect(seatedPoses(part, flat).size).toBe(rolledBody(part, flat).part.panels.length);
        const placesOf = lengthPlaces(part, flat);
        for (const measure of result.proof?.measures ?? []) {
          const between = measure.between.map(({ kind }) => kind);
          if (inputOf(measure) === undefined || between.includes('centre')) continue;
          for (const { from, to } of placesOf(measure)) {
            const way = unit3(sub3(to, from));
            // The mesh of the folded part, made by bending the blank, ends at both levels, or passes
            // the line where the faces of a bend would meet: then it is tangent to the face there.
            for (const end of [from, to]) {
              const off = mesh.points.map((p) => Math.abs(dot3(sub3(p, end), way)));
              expect(Math.min(...off)).toBeLessThan(0.1);
            }
          }
        }
      }
    },
  );

  const angles = [
    ['bracket-angle', 'bendAngle', [35, 60, 90, 120]],
    ['bracket-hat', 'bendAngle', [50, 75, 105]],
    ['bracket-zed', 'bendAngle', [60, 110]],
    ['heel-rest', 'floorAngle', [-18, -9, -27]],
  ] as const;
  test.each(angles)(
    '%s: the arc of %s is as wide as it says, at metal',
    async (family, of, all) => {
      const template = (await FAMILIES.get(family)?.())?.default as Template;
      const inputs = template.examples[0]?.inputs ?? {};
      for (const deg of all) {
        const [made, changed] = [deg, deg + 0.5].map((value) =>
          madeOnce(template, { ...inputs, [of]: value }, { foldAt: 'service' }),
        );
        if (made?.ok !== true || changed?.ok !== true) throw new Error(`${family} ${deg}`);
        const found = made.parts.flatMap((one, i) => {
          const mesh = one.part && one.flat && foldedMesh(one.part, one.flat, 0.01);
          return anglePlaces(one, changed.parts[i] as MadePart, deg, 0.5).map((place) => {
            // Where an arc begins, the metal is no farther than a bend of this sheet takes off.
            const off = mesh?.points.map((p) => length3(sub3(p, place.tip))) ?? [];
            expect(Math.min(...off)).toBeLessThan(25);
            return place;
          });
        });
        expect(found.length, `${deg}`).toBeGreaterThan(0);
        for (const { arms } of found) {
          const open = (Math.acos(dot3(...arms)) * 180) / Math.PI;
          expect(open).toBeCloseTo(Math.abs(deg), 1);
          for (const arm of arms) expect(length3(arm)).toBeCloseTo(1, 9);
        }
      }
    },
  );

  test.each([0, 1])(
    'the tube that passes a hole, oval or round, spans the hole the narrow way: example %i',
    async (i) => {
      const template = (await FAMILIES.get('neck-plate')?.())?.default as Template;
      const { tube, clear = 0.5, grommet = 0, ...more } = template.examples[i]?.inputs ?? {};
      const [made, changed] = [Number(tube), Number(tube) + 1].map((mm) =>
        madeOnce(template, { ...more, clear, grommet, tube: mm }, UNPLANNED),
      );
      if (made?.ok !== true || changed?.ok !== true) throw new Error('no plate');
      const [one, other] = [made.parts[0] as MadePart, changed.parts[0] as MadePart];
      const places = tubeHoles(one, other, Number(tube), 1);
      expect(places).toHaveLength(1);
      for (const { from, to } of places)
        expect(length3(sub3(to, from))).toBeCloseTo(
          Number(tube) + 2 * Number(clear) + 2 * Number(grommet),
          6,
        );
      // Of a tube that does not pass it nothing is shown.
      expect(tubeHoles(one, other, Number(tube) + 5, 1)).toEqual([]);
      expect(tubeHoles(one, one, Number(tube), 1)).toEqual([]);
    },
  );

  test('an angle that no panels have is shown nowhere', async () => {
    const template = (await FAMILIES.get('bracket-angle')?.())?.default as Template;
    const inputs = { ...template.examples[0]?.inputs, bendAngle: 80 };
    const made = madeOnce(template, inputs, { foldAt: 'service' });
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    const [one] = made.parts as [MadePart];
    expect(anglePlaces(one, one, 80, 0.5)).toEqual([]);
    expect(anglePlaces(one, one, 33, 0.5)).toEqual([]);
  });
});
