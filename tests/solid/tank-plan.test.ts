import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Vec3 } from '../../src/geometry/vec3.ts';
import { lengthForReserve, levelOf, litresBelow } from '../../templates/tank-plan/levels.ts';
import { reachMm, rodAt, volumeBelowMm3, volumeMm3 } from '../../templates/tank-plan/solid.ts';
import { joinedBody } from '../../src/assembly/joined-body.ts';
import { weldsOf } from '../../src/assembly/weld-seams.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { fuzzRuns, inTurns } from '../helpers/extent.ts';
import { foldBlank } from '../helpers/folded-solid.ts';
import { setsFrom } from '../helpers/made-sets.ts';
import { loadSolids, type Solid, type Solids } from '../helpers/solid.ts';
import { anyRoom, blockBeyond, bodyOfRoom, roomSolid } from '../helpers/tank-room.ts';

/** A hundredth of a percent, as a share: the worst that a volume may be off. */
const WORST = 1e-4;

const litresIn = (solids: Solids, solid: Solid): number => solids.volume(solid) / 1e6;

describe.each(inTurns(['pan', 'wrap', 'halves'], 0, 3))('a tank in a %s', async (blanks) => {
  const withSolids = await loadSolids();
  const family = await loadFamily('tank-plan');
  const [set] = setsFrom(family, { ...family.examples[0]?.inputs, blanks, cornerGap: 0.7 });
  if (set === undefined) throw new Error('no set');

  test('closes to its gaps: pieces stand apart by what the welds say, and none runs into another', () => {
    const { pieces } = set.assembly;
    const joined = joinedBody(set.assembly);
    withSolids((solids) => {
      const panels = pieces.map(({ part, flat, pose }) => {
        const made = foldBlank(solids, part, flat);
        const placed = (of: ReadonlyMap<string, Solid>): Map<string, Solid> =>
          new Map([...of].map(([id, solid]) => [id, solids.move(solid, pose)]));
        return { panels: placed(made.panels), bends: placed(made.bends) };
      });
      for (const [i, one] of panels.entries())
        for (const other of panels.slice(i + 1))
          for (const a of [...one.panels.values(), ...one.bends.values()])
            for (const b of [...other.panels.values(), ...other.bends.values()])
              expect(solids.distance(a, b)).toBeGreaterThan(0.69);
      const between = weldsOf(set.assembly, joined).filter(({ turn }) => turn > 0);
      for (const { runs } of between)
        for (const {
          panels: [a, b],
          gapMm,
        } of runs) {
          const [from, to] = [a, b].map(
            (panel) => panels[joined.pieceOf(panel)]?.panels.get(joined.panelOf(panel)) as Solid,
          ) as [Solid, Solid];
          expect(solids.distance(from, to), `${a} and ${b}`).toBeCloseTo(gapMm, 2);
        }
      // Every side meets the top, and the baffle meets floor and two sides.
      expect(between.flatMap(({ runs }) => runs).length).toBeGreaterThanOrEqual(8);
    });
  });
});

describe('the inside of a measured room, by the kernel', async () => {
  const withSolids = await loadSolids();

  test('holds as much, and as much below any level and below the surface of a tilted tank', () => {
    let worst = 0;
    fc.assert(
      fc.property(
        anyRoom,
        fc.integer({ min: 5, max: 95 }),
        fc.tuple(fc.integer({ min: -20, max: 20 }), fc.integer({ min: -20, max: 20 })),
        (room, percent, [tx, ty]) => {
          const body = bodyOfRoom(room);
          const whole = volumeMm3(body);
          const [low, high] = reachMm(body);
          const normal: Vec3 = [tx / 100, ty / 100, 1];
          const size = Math.hypot(...normal);
          const through: Vec3 = [200, 150, low + ((high - low) * percent) / 100];
          withSolids((solids) => {
            const solid = roomSolid(solids, room);
            const left = solids.cut(solid, [blockBeyond(solids, through, normal)]);
            const unit = normal.map((c) => c / size) as unknown as Vec3;
            const atMm = unit[0] * through[0] + unit[1] * through[1] + unit[2] * through[2];
            const off = [
              whole - solids.volume(solid),
              volumeBelowMm3(body, { normal: unit, atMm }) - solids.volume(left),
            ].map((d) => Math.abs(d) / whole);
            for (const share of off) expect(share).toBeLessThan(WORST);
            worst = Math.max(worst, ...off);
          });
        },
      ),
      { numRuns: fuzzRuns(300, 25) },
    );
    // Exact, not only close.
    expect(worst).toBeLessThan(1e-9);
  });

  test('has the level of a volume, and the sender of a reserve, that halving finds with the kernel', () => {
    fc.assert(
      fc.property(anyRoom, fc.integer({ min: 3, max: 60 }), (room, percent) => {
        const body = bodyOfRoom(room);
        const wanted = (volumeMm3(body) / 1e6) * (percent / 100);
        withSolids((solids) => {
          const solid = roomSolid(solids, room);
          let [low, high] = reachMm(body);
          while (high - low > 0.01) {
            const middle = (low + high) / 2;
            const cut = solids.cut(solid, [blockBeyond(solids, [0, 0, middle], [0, 0, 1])]);
            if (litresIn(solids, cut) < wanted) low = middle;
            else high = middle;
          }
          const level = levelOf(body, wanted);
          expect(Math.abs(level - (low + high) / 2)).toBeLessThan(0.01);
          const rod = rodAt(body, [120, 90]);
          if (rod === undefined) throw new Error('no depth there');
          // A sender of that length reads empty 15 over its end.
          const length = lengthForReserve(body, rod, 15, wanted);
          expect(Math.abs(rod.highMm - length + 15 - level)).toBeLessThan(1e-9);
          expect(litresBelow(body, rod.highMm - length + 15)).toBeCloseTo(wanted, 9);
        });
      }),
      { numRuns: fuzzRuns(6, 6) },
    );
  });
});
