import { expect, test } from 'vitest';
import { loadFamily } from '../helpers/check-template.ts';
import { setsFrom } from '../helpers/made-sets.ts';
import { nearestPieces } from '../helpers/nearest-pieces.ts';

/** Baffles along lines of the plan, by the kernel. */

test.each([
  [
    'aslant, with wide flanges beside a side that leans over them',
    { baffleLines: '90,-20 290,320' },
  ],
  [
    'over a step of the floor',
    { baffleLines: '-10,90 430,190', floorStep: 'x 160 up 45; x 260 down 45', lean: '2: 5; 4: 3' },
  ],
])('a baffle %s stays its gap off floor, sides and top', async (_, inputs) => {
  const [set] = setsFrom(await loadFamily('tank-plan'), {
    name: 'baffled',
    outline: '0,0; 420,12; 350,300; 0,280',
    floor: '1: 0; 2: 14; 4: 22',
    top: 200,
    thickness: 2,
    radius: 3,
    flange: 45,
    limber: 30,
    openPercent: 0,
    ...inputs,
  });
  if (set === undefined) throw new Error('no set');
  const gaps = await nearestPieces(set.assembly);
  for (const other of ['floor', 'wrap', 'top']) {
    const mm = gaps.get(other === 'top' ? 'baffle-1 top' : `${other} baffle-1`);
    expect(mm, other).toBeGreaterThan(0.99);
    if (other !== 'top') expect(mm, other).toBeLessThan(1.01);
  }
});
