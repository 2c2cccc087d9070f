import { describe, expect, test } from 'vitest';
import { FAMILIES } from '../../templates/index.ts';
import { describeInputs } from '../../src/forms/read.ts';
import { seatedPoses } from '../../src/use/pack/space-dimensions.ts';
import { familySketches } from '../../src/use/sketch/family-sketches.ts';
import { inputOf, lengthPlaces } from '../../src/use/sketch/lettered-lengths.ts';
import { foldedMesh } from '../../src/solid/folded-mesh.ts';
import { dot3, sub3, unit3 } from '../../src/geometry/vec3.ts';
import { IS_FULL } from '../helpers/extent.ts';
import { madeOnce } from '../helpers/made-once.ts';

const SIZE = { widthMm: 110, heightMm: 84 };

/** Lengths that no picture shows: the ends of a transition have no two corners that far apart. */
const NOT_SHOWN = new Set(['duct-transition length']);

const families = [...FAMILIES].filter(
  ([name]) => IS_FULL || ['bracket-hat', 'ring', 'strap', 'tray'].includes(name),
);

describe('sketches of families', () => {
  test.each(families)(
    '%s shows each length that must be given, by its letter',
    async (name, load) => {
      const template = (await load()).default;
      const sketches = familySketches(template, SIZE);
      expect(sketches.length).toBeGreaterThan(0);
      const shown = Object.assign({}, ...sketches.map(({ letters }) => letters)) as object;
      const described = describeInputs(template);
      const wanted = described.flatMap((i) =>
        i.required && i.kind === 'length' && !NOT_SHOWN.has(`${name} ${i.name}`)
          ? [[i.name, i.letter]]
          : [],
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
        expect(seatedPoses(part, flat).size).toBe(part.panels.length);
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
              expect(Math.min(...off)).toBeLessThan(0.05);
            }
          }
        }
      }
    },
  );
});
