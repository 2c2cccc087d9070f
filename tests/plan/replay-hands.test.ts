import { expect, test } from 'vitest';
import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { PRESS_BRAKE } from '../../src/data/machines/press-brake.ts';
import { STRAIGHT } from '../../src/data/machines/straight.ts';
import { plannedStrokes } from './replay-solid-plan.ts';
import { replaySolid } from './replay-solid.ts';
import { faults, isFeasible, onlyPlanned } from './replay-solid-planned.ts';

const HAT = { crown: 26, height: 24, footA: 24, footB: 24, width: 40, material: 'dc01' };
const LAPPED = { length: 300, depth: 200, height: 40, corner: 'lapped', material: 'dc01' };
const DUCT = {
  base: '120 x 90',
  flanges: ['leg on top 80 90 up', 'lip on left 25 90 down', 'rip on right 25 90 down'],
};
const LID = {
  base: '300 x 200',
  flanges: [
    'a on bottom 22 90 up',
    'h on a end 10 180 down radius 2',
    'b on top 30 90 up',
    'c on left 30 90 up',
    'd on right 30 90 up',
  ],
};

// Degree by degree, by the witness that shares nothing with the planner: bars, packers, the machine's
// end and the short die stand where the plan says, and thin metal springs by 0.5 mm.
test.each([
  ['over a block', 'bracket-hat', { ...HAT, thickness: 2, radius: 2 }, BOX_PAN],
  ['off the end', 'tray', { ...LAPPED, thickness: 1, radius: 1 }, BOX_PAN],
  ['on packers', 'panels', { ...LID, thickness: 1, radius: 1, material: 'dc01' }, BOX_PAN],
  // Its cheeks lie in front of the bed beside the fold, and the leaf has to pass under them.
  [
    'on packers',
    'neck-plate',
    {
      mount: 'sunk',
      tube: 38,
      lean: 12.5,
      base: 90,
      wide: 82,
      low: 22,
      flange: 20,
      bolts: 2,
      boltHole: 4.5,
      measure: 'inside',
      material: 'dc01',
      thickness: 1,
    },
    BOX_PAN,
  ],
  ['short die', 'panels', { ...DUCT, thickness: 1, radius: 1, material: 'dc01' }, PRESS_BRAKE],
  [
    'rest by hand',
    'bracket-angle',
    { legA: 60, legB: 60, width: 300, bendAngle: 150, material: 'dc01', thickness: 1, radius: 1 },
    STRAIGHT,
  ],
] as const)('a plan %s stands the replay', async (way, family, inputs, machine) => {
  const found = await onlyPlanned(family, inputs, machine);
  expect(isFeasible(found)).toBe(true);
  expect(found.plan.plan.steps.map((s) => s.way)).toContain(way);
  expect(faults(found)).toEqual([]);
  // Without the help the same strokes run into the machine, or further than it goes.
  const { strokes } = plannedStrokes(found.plan, found.flat);
  const alone = strokes
    .filter((s) => s.help?.way !== 'free hand')
    .map((s) => ({ ...s, help: undefined, places: undefined }));
  const { contacts, stands } = replaySolid(found.flat, machine, alone, 'about the hinge');
  const unmade = found.flat.bends.filter((b) => stands.get(b.id) !== b.angleDeg);
  expect(contacts.filter((c) => c.isFault).length + unmade.length).toBeGreaterThan(0);
});
