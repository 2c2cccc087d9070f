import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Vec3 } from '../../src/geometry/vec3.ts';
import { reachMm, volumeBelowMm3, volumeMm3 } from '../../templates/tank-plan/solid.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { setsFrom } from '../helpers/made-sets.ts';
import { nearestPieces } from '../helpers/nearest-pieces.ts';
import { loadSolids } from '../helpers/solid.ts';
import { anySteppedRoom, blockBeyond, bodyOfRoom, roomSolid } from '../helpers/tank-room.ts';

/** A hundredth of a percent, as a share: the worst that a volume may be off. */
const WORST = 1e-4;

test('a room with steps holds as much by the kernel, below any level and any tilted surface', async () => {
  const withSolids = await loadSolids();
  fc.assert(
    fc.property(
      anySteppedRoom,
      fc.integer({ min: 3, max: 95 }),
      fc.tuple(fc.integer({ min: -20, max: 20 }), fc.integer({ min: -20, max: 20 })),
      (room, percent, [tx, ty]) => {
        const body = bodyOfRoom(room);
        const whole = volumeMm3(body);
        const [low, high] = reachMm(body);
        const size = Math.hypot(tx / 100, ty / 100, 1);
        const unit: Vec3 = [tx / 100 / size, ty / 100 / size, 1 / size];
        const through: Vec3 = [200, 150, low + ((high - low) * percent) / 100];
        const atMm = unit[0] * through[0] + unit[1] * through[1] + unit[2] * through[2];
        withSolids((solids) => {
          const solid = roomSolid(solids, room);
          const left = solids.cut(solid, [blockBeyond(solids, through, unit)]);
          const below = volumeBelowMm3(body, { normal: unit, atMm });
          expect(Math.abs(whole - solids.volume(solid)) / whole).toBeLessThan(WORST);
          expect(Math.abs(below - solids.volume(left)) / whole).toBeLessThan(WORST);
        });
      },
    ),
    { numRuns: fuzzRuns(40, 20) },
  );
});

test.each([
  ['wrap', 'x 210 up 45; x 330 down 60', '2: 5', 'folded'],
  ['plates', 'y 190 down 35', '1: -3', 'folded'],
  ['wrap', 'x 210 up 45; x 330 down 60', '2: 5', 'pieces'],
])(
  'the folded blanks of %s over %s stand apart by the gap and more, and none runs into another',
  async (blanks, floorStep, lean, floorBlanks) => {
    const [set] = setsFrom(await loadFamily('tank-plan'), {
      name: 'stepped',
      outline: '0,0; 600,20; 570,400; 25,380',
      floor: '1: 0; 2: 14; 4: 22',
      top: 240,
      lean,
      floorStep,
      floorBlanks,
      blanks,
      cornerGap: 0.7,
      thickness: 2,
      radius: 3,
      longestBay: 420,
      bafflesAcross: floorStep.startsWith('x') ? 'y' : 'x',
      breather: '300,60,10',
    });
    if (set === undefined) throw new Error('no set');
    const nearest = Math.min(...(await nearestPieces(set.assembly)).values());
    // They close: somewhere the pieces stand at the gap that was asked for, and nowhere nearer.
    expect(nearest).toBeGreaterThan(0.69);
    expect(nearest).toBeLessThan(0.71);
  },
);
