import { expect, test } from 'vitest';
import { findMaterial } from '../../src/data/materials.ts';
import { flatten } from '../../src/flatten/flatten.ts';
import type { Folder } from '../../src/model/machine.ts';
import { planPart } from '../../src/plan/of-part/part-plan.ts';
import { readShop } from '../../src/shop/read.ts';
import { shopEntries, writeShop } from '../../src/shop/write.ts';
import { angle, box } from '../helpers/parts.ts';

const CUTTER =
  'cutters:\n  - { name: a, process: laser, thickness: { from: 0.5, to: 30 }, bed: { length: 3000, width: 1500 }, kerf: [{ thickness: 1, kerf: 0.1 }] }\n';
const HEAD =
  '  - id: mine\n    name: mine\n    workingLength: 1250\n    noseSetback: 2\n    capacity: 2\n    maxAngle: 135\n    fingers: { boxDepth: 100, beamDepth: 120, widths: [25, 30, 50, 100, 200, 400] }\n';
const DIMENSIONS =
  '    bedDepth: 300\n    noseDepth: 50\n    noseFront: 25\n    noseBevel: 45\n    clampHeight: 100\n    leafEdge: { barFitted: 20, barRemoved: 8 }\n    stiffener: { projection: 60, startsBelow: 60, endsBelow: 200 }\n';
// The same section drawn out by hand.
const POLYGONS = `    section:
      bed: [[[-300, -300], [0, -300], [0, 0], [-300, 0]]]
      leaf: [[[0, -200], [20, -200], [20, 0], [0, 0]], [[0, -200], [60, -200], [60, -60], [0, -60]]]
      clamp: [[[0, 0], [-25, 25], [-50, 25], [-50, 0]], [[-50, 25], [-25, 25], [-25, 100], [-50, 100]]]
      beam: [[[-120, 100], [-25, 100], [-25, 220], [-120, 220]]]
`;

const folderIn = (text: string): Folder => {
  const read = readShop(text);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const [machine] = read.shop.machines;
  if (machine?.kind !== 'folder') throw new Error('one folder');
  return machine;
};

const material = findMaterial('dc01');
if (!material.ok) throw new Error('dc01 is in the catalogue');

test('a folder by its polygons folds what the same folder folds by its dimensions', () => {
  const [byDimensions, byPolygons] = [DIMENSIONS, POLYGONS].map((body) =>
    folderIn(`${CUTTER}folders:\n${HEAD}${body}`),
  );
  if (byDimensions === undefined || byPolygons === undefined) throw new Error('two folders');
  expect(byPolygons.section).toBeDefined();
  for (const part of [
    angle(80, 30, 100, 90, 1.5, 1.5),
    box(200, 120, 30, 90, 1.5, 1.5),
    box(200, 120, 130, 90, 1.5, 1.5),
    angle(60, 40, 90, 134, 2, 1),
  ]) {
    const plans = [byDimensions, byPolygons].map(
      (m) =>
        planPart(
          { part, flat: flatten(part, { id: 'k', k: 0.42 }), material: material.value, bends: [] },
          m,
        ).plan,
    );
    expect(plans[1]).toEqual(plans[0]);
  }
});

test('it is written and read back as it was', () => {
  const read = readShop(`${CUTTER}folders:\n${HEAD}    noseRadii: [0, 1, 3]\n${POLYGONS}`);
  if (!read.ok) throw new Error('in order');
  const again = readShop(writeShop(shopEntries(read.shop, {}), 'again'));
  if (!again.ok) throw new Error('what is written is in order');
  const [was, is] = [read, again].map(({ shop }) => shop.machines[0]);
  if (was?.kind !== 'folder' || is?.kind !== 'folder') throw new Error('one folder each');
  // What was taken from the built-in machine now stands in the file as the shop's own.
  expect([is.section, is.noseRadiiMm, is.noseSetbackMm, is.capacityMm]).toEqual([
    was.section,
    was.noseRadiiMm,
    was.noseSetbackMm,
    was.capacityMm,
  ]);
  expect(shopEntries(again.shop, {}).entries['folders']).toEqual(
    shopEntries(read.shop, {}).entries['folders'],
  );
});

test('with neither, every dimension that is missing is told; a hollow polygon is refused', () => {
  const problems = (text: string) => {
    const read = readShop(text);
    return read.ok ? [] : read.problems.map((p) => p.input);
  };
  expect(problems(`${CUTTER}folders:\n${HEAD}`)).toEqual(
    ['bedDepth', 'noseDepth', 'noseFront', 'noseBevel', 'clampHeight', 'leafEdge', 'stiffener'].map(
      (d) => `folders[0].${d}`,
    ),
  );
  expect(
    problems(
      `${CUTTER}folders:\n${HEAD}${POLYGONS.replace('[0, 0], [-300, 0]', '[-200, -200], [-300, 0]')}`,
    ),
  ).toEqual(['folders[0].section.bed[0]']);
});
