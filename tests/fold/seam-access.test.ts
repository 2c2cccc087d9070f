import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { TORCH } from '../../src/data/welding.ts';
import { flatten } from '../../src/flatten/flatten.ts';
import { seamsBehind, slotSeams } from '../../src/welds/bend-seams.ts';
import { foldUp } from '../../src/fold/fold-up.ts';
import { accessTo, surroundingsIn, toolOf } from '../../src/welds/seam-access.ts';
import { seamFindings } from '../../src/welds/seam-findings.ts';
import { cutSeams } from '../../src/welds/seams.ts';
import { type Bar, isMet, obstaclesOf } from '../../src/welds/torch-room.ts';
import { type Loop, polygon, rectangle } from '../../src/geometry/loop.ts';
import { along3, cross3, length3, scale3, type Vec3 } from '../../src/geometry/vec3.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import type { Direction, Part } from '../../src/model/part.ts';
import { reroot } from '../../src/model/reroot.ts';
import { make } from '../helpers/check-template.ts';
import { fixedRuns, inTurns, shareOf } from '../helpers/extent.ts';
import { foldBlank } from '../helpers/folded-solid.ts';
import { box, fold, panel, part } from '../helpers/parts.ts';
import { loadSolids, type Solid } from '../helpers/solid.ts';
import { TREES } from '../helpers/trees.ts';
import { CONTACT_GAP_MM } from '../../src/geometry/tolerance.ts';

const K = { id: 'k', k: 0.42 } as const;
const SLOTS = { longestMm: 40, landMm: 5, widthMm: 3 };

const said = (p: Part): string[] => {
  const findings = seamFindings(p, flatten(p, K), TORCH);
  expect(findings.every((f) => f.rule === 'seam-without-access' && f.severity === 'warn')).toBe(
    true,
  );
  return findings.map((f) => f.message);
};

/** The same is said of the other hand, and whichever panel stays put. */
const saidOfAny = (p: Part): string[] => {
  const messages = said(p);
  const alike = [
    () => mirrorPart(p),
    ...p.panels.map(
      ({ id }) =>
        () =>
          reroot(p, id),
    ),
  ];
  for (const like of inTurns(alike, p.panels.length, alike.length - 1))
    expect(said(like())).toEqual(messages);
  return messages;
};

/**
 * Legs one behind the other, folded square, of 2 mm sheet with an inside radius of 2; by outside
 * lengths.
 */
const strip = (
  width: number,
  legs: readonly (number | Loop)[],
  directions: readonly Direction[],
  slotted: readonly string[] = [],
): Part => {
  const made = part(
    legs.map((leg, i) =>
      panel(`leg ${i}`, typeof leg === 'number' ? rectangle(0, 0, width, leg) : leg),
    ),
    directions.map((direction, i) =>
      fold(
        `F${i}`,
        { panel: `leg ${i}`, edge: 2 },
        { panel: `leg ${i + 1}`, edge: 0 },
        90,
        direction,
        2,
      ),
    ),
    { thicknessMm: 2 },
  );
  return {
    ...made,
    folds: made.folds.map((f) => (slotted.includes(f.id) ? { ...f, slots: SLOTS } : f)),
  };
};

/**
 * Section: leg 0 up, leg 1 across its top, leg 2 down again, leg 3 on from its foot, leg 4 up
 * beside it, higher than the top. Fold F1 at the top is slotted. Inside it legs 0 and 2 leave 12
 * between them. Outside, a torch straight up goes by the bent metal's middle, which lies 4 (1 - cos
 * 45) = 1.17 in from the outer face of leg 2, and so 1.17 more than the gap of `across` - 4 between
 * the legs from leg 4: the nozzle's 10 less the 0.3 that sheet gives way fit when that is 9.7 or
 * more: from across = 12.53 on.
 */
const serpent = (across: number, last: number | Loop = 140, width = 120): Part =>
  strip(width, [80, 16, 60, across, last], ['up', 'up', 'down', 'down'], ['F1']);

describe('a slotted fold beside a wall', () => {
  it('is within reach when the nozzle passes, and not when it does not', () => {
    expect(saidOfAny(serpent(12.6))).toEqual([]);
    // Of twelve pieces the first and the last, 5 from an end, are reached by a torch that leans out
    // over the end.
    expect(saidOfAny(serpent(12.4))).toEqual([
      'A torch does not get to 100 of the 120 mm of the weld seam along fold F1: a nozzle 20 mm across, 15 mm off it and tilted up to 45 degrees either way, meets leg 4. Weld it before fold F0 is made, or take a nozzle of at most 19 mm.',
    ]);
  });

  it('says which nozzle passes, as long as there is one so small', () => {
    // 8.17 to the wall, and 0.3 that gives way: 16.9 mm across. 5.37 and 0.3: 11.3 mm.
    expect(said(serpent(11))[0]).toMatch(/ nozzle of at most 16 mm\.$/);
    expect(said(serpent(8.2))[0]).toMatch(/ nozzle of at most 11 mm\.$/);
    const coarse = { ...TORCH, leastNozzleMm: { ...TORCH.leastNozzleMm, value: 17 } };
    expect(seamFindings(serpent(11), flatten(serpent(11), K), coarse)[0]?.message).toMatch(
      / Weld it before fold F0 is made\.$/,
    );
  });

  it('is told when a third of it is out of reach', () => {
    // The wall stands up only along the first `high` mm; beyond, it ends below the torch. 6.17 off
    // the seam the nozzle is still 2 sqrt(100 - 6.17^2) = 15.7 wide: at 45 degrees it clears the
    // wall from 10.6 - 7.9 cos 45 = 5 before its end. From 15 sin 45 = 10.6 before its end no tilt
    // does. So of pieces of 10 those with their middles 12 before it are out of reach, and those 2
    // before it are not; nor is the first piece, by the wall's other end.
    const wall = (high: number): Loop =>
      polygon([0, 0], [120, 0], [120, 20], [high, 20], [high, 140], [0, 140]);
    expect(saidOfAny(serpent(9, wall(47)))).toEqual([]);
    expect(saidOfAny(serpent(9, wall(57)))[0]).toMatch(
      /does not get to 40 of the 120 mm of the weld seam along fold F1/,
    );
    expect(saidOfAny(serpent(9, wall(87)))[0]).toMatch(/does not get to 70 of the 120 mm/);
  });

  it('says at which end, where that is one', () => {
    // As before, but the end of the wall is turned in over the end of the fold: no torch leans out
    // over it. Nearest there is the wall, 6.2 off.
    const turned = serpent(
      9,
      polygon([0, 0], [120, 0], [120, 20], [57, 20], [57, 140], [-12, 140], [-12, 20], [0, 20]),
    );
    const closed = {
      ...turned,
      panels: [...turned.panels, panel('end', rectangle(0, 0, 120, 40))],
      folds: [
        ...turned.folds,
        fold('E', { panel: 'leg 4', edge: 5 }, { panel: 'end', edge: 0 }, 90, 'down', 2),
      ],
    };
    for (const like of [closed, mirrorPart(closed)])
      expect(said(like)[0]).toMatch(
        /does not get to the 50 of 120 mm next to leg 4 of the weld seam along fold F1/,
      );
  });

  it('is told of a traced plate that is made as usual', async () => {
    const plate = (across: number) => {
      const ends = [80, 96, 156, 156 + across];
      const foldLines = ends
        .map(
          (y, i) =>
            `0,${y} 120,${y} 90 ${['up', 'up', 'down', 'down'][i]} r2${i === 1 ? ' slots' : ''}`,
        )
        .join('; ');
      return {
        outline: `0,0; 120,0; 120,${296 + across}; 0,${296 + across}`,
        folds: foldLines,
        material: 'dc01',
        thickness: 2,
      };
    };
    const warned = async (across: number) =>
      (await make('plate', plate(across)))[0]?.result.findings.filter(
        (f) => f.rule === 'seam-without-access',
      ).length;
    expect([await warned(12.6), await warned(12.4)]).toEqual([0, 1]);
  });
});

test('a channel whose slotted flanges leave no room between them is welded from outside', () => {
  const channel = strip(100, [60, 16, 60], ['up', 'up'], ['F0', 'F1']);
  expect(saidOfAny(channel)).toEqual([]);
  const flat = flatten(channel, K);
  const room = surroundingsIn(channel, flat);
  for (const seam of slotSeams(flat, foldUp(channel, flat))) {
    const each = seam.sides.map(
      (side) => accessTo({ ...seam, sides: [side] }, room, toolOf(TORCH))?.unreached.length,
    );
    // All but the pieces at the ends.
    expect(each).toEqual([undefined, 10]);
  }
});

describe('an edge that stands on a face', () => {
  // Section: leg 0 up, leg 1 the floor of 112, leg 2 up 60, leg 3 back over the floor by 50, leg 4
  // down to 0.4 over its face. Between leg 2 and leg 4 there is no way in but at the ends. From the
  // side of leg 0, 60 away, a torch that clears leg 4 leans at 45 degrees: its axis comes 60 + 2.2
  // high over leg 0, which has to stay 9.7 below it, square to it: at most 62.2 - 9.7 sqrt 2 =
  // 48.48 high.
  const cell = (wall: number): Part =>
    strip(600, [wall, 112, 60, 50, 57.6], ['up', 'up', 'up', 'up']);

  it('is found, once', () => {
    const p = cell(40);
    const flat = flatten(p, K);
    const seams = cutSeams(p, flat, foldUp(p, flat));
    expect(seams.map((s) => [s.name, s.isLap])).toEqual([['between leg 4 and leg 1', false]]);
    expect(seams[0]?.lengthMm).toBeCloseTo(600, 6);
    // Its middle: at the free end of the strip.
    expect(
      Math.max(
        ...[0, 1].map((i) =>
          Math.abs((seams[0]?.at[i as 0 | 1] ?? 0) - ([300, 57.6] as const)[i as 0 | 1]),
        ),
      ),
    ).toBeLessThan(1e-6);
  });

  it('is within reach over a low wall, not over a high one', () => {
    expect(saidOfAny(cell(48.2))).toEqual([]);
    expect(saidOfAny(cell(48.8))[0]).toMatch(
      /of the 600 mm of the weld seam between leg 4 and leg 1: .* Weld it before fold F0 is made/,
    );
  });
});

describe('boxes and trays', () => {
  it.each(TREES)('$name: the same in either hand and from every panel', ({ part: tree }) => {
    saidOfAny(tree);
  });

  it('the four corners of a box are seams as high as its walls are straight, open from outside', () => {
    const p = box(100, 60, 40, 90, 3, 3);
    const flat = flatten(p, K);
    const seams = cutSeams(p, flat, foldUp(p, flat));
    // Walls of 40 less the setback of 6.
    expect(
      seams
        .map((s): [string, number] => [s.name, Math.round(s.lengthMm)])
        .toSorted(([a], [b]) => (a < b ? -1 : 1)),
    ).toEqual([
      ['between wall 0 and wall 1 (corner F0/F1)', 34],
      ['between wall 0 and wall 3 (corner F0/F3)', 34],
      ['between wall 1 and wall 2 (corner F1/F2)', 34],
      ['between wall 2 and wall 3 (corner F2/F3)', 34],
    ]);
    expect(saidOfAny(p)).toEqual([]);
  });

  it.each(['in', 'out', 'hem-in', 'hem-out'])('a tray with lips all round: %s', async (lip) => {
    for (const corner of ['open', 'butt', 'lapped']) {
      const inputs = {
        length: 120,
        depth: 100,
        height: 60,
        corner,
        lipFront: lip,
        lipBack: lip,
        lipLeft: lip,
        lipRight: lip,
        lipDepth: 14,
        material: 's235',
        thickness: 2,
      };
      const [made] = await make('tray', inputs);
      expect([
        corner,
        lip,
        (made?.result.findings ?? []).filter(
          (f) => f.rule === 'seam-without-access' || f.severity === 'stop',
        ),
      ]).toEqual([corner, lip, []]);
    }
  });

  it('a lapped tray too narrow for the torch is welded from behind the bend of its tabs', async () => {
    const [made] = await make('tray', {
      length: 49,
      depth: 129,
      height: 62,
      corner: 'lapped',
      lap: 17,
      lipLeft: 'out',
      lipRight: 'in',
      lipDepth: 24,
      material: 's235',
      thickness: 3,
    });
    if (made?.part === undefined || made.flat === undefined)
      throw new Error(JSON.stringify(made?.result.findings));
    const { part: p, flat } = made;
    const [room, body] = [surroundingsIn(p, flat), foldUp(p, flat)];
    const laps = cutSeams(p, flat, body).filter(
      (s) => s.isLap && s.name === 'between front tab at left and left' && s.lengthMm > 20,
    );
    expect(laps.map((s) => (accessTo(s, room, toolOf(TORCH))?.unreached.length ?? 0) >= 8)).toEqual(
      [true],
    );
    expect(
      laps
        .flatMap((s) => seamsBehind(s, flat, body))
        .map((s) => [s.name, accessTo(s, room, toolOf(TORCH))]),
    ).toEqual([['along fold J', undefined]]);
    for (const like of [p, mirrorPart(p), reroot(p, 'right lip')]) expect(said(like)).toEqual([]);
  });

  it('a hem is not welded to its neighbours', () => {
    // Two walls of a box with hems folded inwards: the corner between the walls is a seam, the
    // hems' ends are none.
    const p = box(100, 60, 40, 90, 3, 3);
    const hemmed = {
      ...p,
      panels: [...p.panels, panel('hem', rectangle(0, 0, 100, 20))],
      folds: [
        ...p.folds,
        fold('H', { panel: 'wall 0', edge: 2 }, { panel: 'hem', edge: 0 }, 180, 'up', 1),
      ],
    };
    const flat = flatten(hemmed, K);
    expect(cutSeams(hemmed, flat, foldUp(hemmed, flat)).flatMap((s) => s.panels)).not.toContain(
      'hem',
    );
  });

  it('a heel rest, a shelf bracket: their cheeks are found, and reached', async () => {
    for (const [family, inputs, count] of [
      [
        'bracket-gusset',
        { base: 120, upright: 140, width: 60, gussetDepth: 100, gussetHeight: 110 },
        2,
      ],
      ['heel-rest', { floorAngle: 25, width: 200, treadDepth: 150, cheeks: 'both' }, 2],
    ] as const) {
      const [made] = await make(family, { ...inputs, material: 's235', thickness: 2 });
      if (made?.part === undefined || made.flat === undefined)
        throw new Error(`${family}: ${JSON.stringify(made?.result.findings)}`);
      expect(
        cutSeams(made.part, made.flat, foldUp(made.part, made.flat)).filter((s) =>
          s.panels.some((p) => p.endsWith('cheek')),
        ),
      ).toHaveLength(count);
      expect(made.result.findings.filter((f) => f.rule === 'seam-without-access')).toEqual([]);
    }
  });
});

describe('what a torch meets', async () => {
  const withSolids = await loadSolids();
  const unit3 = (v: Vec3): Vec3 => scale3(v, 1 / length3(v));

  const place = (low: number, high: number) =>
    fc.integer({ min: 100 * low, max: 100 * high }).map((v) => v / 100);
  const direction = fc
    .tuple(place(-1, 1), place(-1, 1), place(-1, 1))
    .filter((v) => length3(v) > 0.1)
    .map(unit3);
  const bars = fc
    .tuple(fc.tuple(place(-20, 80), place(-20, 60), place(-10, 60)), direction, direction)
    .filter(([, axis, other]) => length3(cross3(axis, other)) > 0.1)
    .map(([from, axis, other]): Bar => ({
      from,
      axis,
      across: unit3(cross3(axis, other)),
      lengthMm: 40,
      radiusMm: 6,
    }));

  it('is what runs into a round bar by a kernel of its own', () => {
    withSolids((solids) => {
      // Without reliefs, so that its bends are whole pieces of cylinders.
      const p = strip(60, [40, 50, 45, 20], ['up', 'up', 'down']);
      const flat = flatten(p, K);
      const folded = foldBlank(solids, p, flat);
      const bodies = new Map<string, Solid>([
        ...folded.panels,
        ...[...folded.bends].map(([id, s]) => [`fold ${id}`, s] as const),
      ]);
      const obstacles = obstaclesOf(p, flat, foldUp(p, flat)).filter((o) => bodies.has(o.name));
      const verdicts = fc.sample(bars, fixedRuns(20)).flatMap((bar) => {
        return obstacles.map((o) => {
          const body = bodies.get(o.name) as Solid;
          const met = isMet(bar, o);
          // Not met: what is left of the bar without the slack of its twelve sides and what sheet
          // gives way runs into nothing.
          const slim = bar.radiusMm * Math.cos(Math.PI / 12) - CONTACT_GAP_MM;
          const inner = solids.cylinder(
            along3(bar.from, bar.axis, CONTACT_GAP_MM),
            bar.axis,
            slim,
            bar.lengthMm - 2 * CONTACT_GAP_MM,
          );
          if (met)
            expect(
              solids.distance(
                solids.cylinder(bar.from, bar.axis, bar.radiusMm, bar.lengthMm),
                body,
              ),
            ).toBeLessThan(1e-9);
          else expect(solids.commonVolume(inner, body)).toBeLessThan(1e-6);
          return met;
        });
      });
      // Both verdicts come often enough.
      expect(verdicts.filter(Boolean).length).toBeGreaterThan(shareOf(5));
      expect(verdicts.filter((met) => !met).length).toBeGreaterThan(shareOf(50));
    });
  });
});
