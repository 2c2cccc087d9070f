import { describe, expect, test } from 'vitest';
import { MACHINES } from '../../src/data/machines.ts';
import { readCase } from '../../src/plan/of-panels/panels.ts';
import { caseOf, FOLDING } from './cases.ts';

const FC01 = caseOf('FC01');

/** FC01 with one value put elsewhere: `part.bends.0.parent`. */
const changed = (path: string, value: unknown): unknown => {
  const copy = structuredClone(FC01) as unknown as Record<string, unknown>;
  const keys = path.split('.');
  let at = copy;
  for (const key of keys.slice(0, -1)) at = at[key] as Record<string, unknown>;
  at[keys.at(-1) as string] = value;
  return copy;
};

const problemsOf = (given: unknown, machine?: string) => {
  const read = readCase(given, machine);
  return read.ok ? [] : read.problems;
};

test('every worked case can be read', () => {
  for (const given of FOLDING.cases) expect(problemsOf(given)).toEqual([]);
});

describe('what is wrong is told with its place', () => {
  test.each([
    ['part.thickness_mm', 'thick', 'part.thickness_mm', "'thick'"],
    ['part.thickness_mm', 0, 'part.thickness_mm', '0'],
    ['part.root', 'q1', 'part.root', "'q1'"],
    ['part.bends.0.parent', 'p9', 'part.bends[0].parent', "'p9'"],
    ['part.bends.0.child', 'p2', 'part.panels[1]', "'p1'"],
    ['part.bends.1.id', 'b1', 'part.bends[1].id', "'b1'"],
    ['part.bends.0.angle_deg', 0, 'part.bends[0].angle_deg', '0'],
    ['part.bends.0.angle_deg', 200, 'part.bends[0].angle_deg', '200'],
    ['part.bends.0.line', [[40, 0]], 'part.bends[0].line', '[[40,0]]'],
    [
      'part.bends.0.line',
      [
        [40, 0],
        [40, 'x'],
      ],
      'part.bends[0].line[1][1]',
      "'x'",
    ],
    [
      'part.bends.0.line',
      [
        [40, 0],
        [40, 0.1],
      ],
      'part.bends[0].line',
      '[[40,0],[40,0.1]]',
    ],
    [
      'part.bends.0.line',
      [
        [60, 0],
        [60, 600],
      ],
      'part.bends[0].line',
      'a line 20 mm away from p0',
    ],
    ['part.panels.0.id', 'p1', 'part.panels[1].id', "'p1'"],
    [
      'part.panels.0.pieces',
      [
        [
          [0, 0],
          [40, 0],
        ],
      ],
      'part.panels[0].pieces[0]',
      '[[0,0],[40,0]]',
    ],
    [
      'part.panels.0.pieces',
      [
        [
          [0, 0],
          [40, 0],
          [20, 0],
        ],
      ],
      'part.panels[0].pieces[0]',
      'points on one line',
    ],
    [
      'part.panels.0.pieces',
      [
        [
          [0, 0],
          [40, 0],
          [10, 10],
          [0, 600],
        ],
      ],
      'part.panels[0].pieces[0]',
      'a polygon that is not convex',
    ],
    [
      'part.panels.0.pieces',
      [
        [
          [0, 0],
          [60, 0],
          [60, 600],
          [0, 600],
        ],
      ],
      'part.panels[1]',
      'p1, which lies over p0 in the flat',
    ],
    ['part.bends', [FC01.part.bends[0]], 'part.bends', '1 bends for 3 panels'],
    ['machine.profile', 'boxpan', 'machine.profile', "'boxpan'"],
    ['machine.settings.overbend_deg', 'five', 'machine.settings.overbend_deg', "'five'"],
    ['machine.settings.overbent_deg', 5, 'machine.settings.overbent_deg', '5'],
    ['part', undefined, 'part', 'nothing'],
    ['strokes_allowed', [['b1', 'b7']], 'strokes_allowed[0][1]', "'b7'"],
  ])('%s = %j', (path, value, input, given) => {
    expect(problemsOf(changed(path, value))).toContainEqual(
      expect.objectContaining({ input, given }),
    );
  });

  test('all at once', () => {
    const given = changed('part.thickness_mm', -1) as { part: { bends: { angle_deg: unknown }[] } };
    (given.part.bends[1] as { angle_deg: unknown }).angle_deg = 'square';
    expect(problemsOf(given).map((p) => p.input)).toEqual([
      'part.thickness_mm',
      'part.bends[1].angle_deg',
    ]);
  });

  test.each([null, undefined, 3, 'text', [], {}])('not a case at all: %j', (given) => {
    expect(problemsOf(given).length).toBeGreaterThan(0);
  });

  test('an unknown machine on the command line', () => {
    expect(problemsOf(FC01, 'straight-2000x1.6')).toEqual([
      expect.objectContaining({ input: '--machine', mend: 'did you mean straight-2000x1.5?' }),
    ]);
  });
});

test('another machine goes before that of the case, whose settings it does not take', () => {
  const read = readCase(changed('machine.settings.nose_setback_mm', 9), 'straight-2000x1.5');
  expect(read.ok && read.machine).toMatchObject({
    id: 'straight-2000x1.5',
    noseSetbackMm: { value: 1.5 },
  });
});

describe('settings have the names of the shop file', () => {
  const set = (profile: string, settings: Record<string, unknown>) => {
    const read = readCase(changed('machine', { profile, settings }));
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    return read.machine;
  };

  test.each([
    [
      'boxpan-1250x2.0',
      { workingLength: 900, overbend: 3, noseDepth: 44, noseBevel: 40, leafBarFitted: false },
      {
        working_length_mm: 900,
        overbend_deg: 3,
        finger_depth_mm: 44,
        nose_bevel_deg: 40,
        leaf_bar_fitted: false,
      },
    ],
    [
      'boxpan-1250x2.0',
      {
        clampHeight: 90,
        fingers: { boxDepth: 90, beamDepth: 110, widths: [25, 50], sideClear: 2 },
      },
      {
        box_depth_mm: 90,
        beam_depth_mm: 110,
        finger_widths_mm: [25, 50],
        finger_side_clear_mm: 2,
      },
    ],
    [
      'straight-2000x1.5',
      { noseDepth: 70, endOverhang: false, clampLand: 12, minFlange: 9 },
      { beam_depth_mm: 70, end_overhang_allowed: false, clamp_land_min_mm: 12, min_flange_mm: 9 },
    ],
    [
      'pressbrake-1250',
      { v: 16, punchHeight: 120, dieHeight: 70, dieHolderHalf: 33, ramHalf: 28, maxAngle: 150 },
      {
        V_mm: 16,
        punch_height_mm: 120,
        die_height_mm: 70,
        die_holder_half_width_mm: 33,
        ram_half_width_mm: 28,
        max_angle_deg: 150,
      },
    ],
  ])('%s: %j', (profile, ours, published) => {
    const machine = set(profile, ours);
    expect(machine).toEqual(set(profile, published));
    expect(machine).not.toEqual(set(profile, {}));
  });

  test('what a machine has not cannot be set', () => {
    expect(
      problemsOf(
        changed('machine', { profile: 'straight-2000x1.5', settings: { finger_widths_mm: [25] } }),
      ),
    ).toEqual([expect.objectContaining({ input: 'machine.settings.finger_widths_mm' })]);
  });
});

// The profiles of the folding figures are the machines known from the start.
test('the known machines have the figures of the profiles', () => {
  const figures = MACHINES.map((m) => [m.id, m.workingLengthMm.value, m.overbendDeg.value]);
  const profiles = FOLDING.machine_profiles;
  const of = (id: string, name: string): unknown => profiles[id]?.fields[name]?.value;
  expect(figures).toEqual([
    [
      'boxpan-1250x2.0',
      of('boxpan-1250x2.0', 'working_length_mm'),
      of('boxpan-1250x2.0', 'overbend_deg'),
    ],
    [
      'straight-2000x1.5',
      of('straight-2000x1.5', 'working_length_mm'),
      of('straight-2000x1.5', 'overbend_deg'),
    ],
    ['pressbrake-1250', 1250, of('pressbrake-1250', 'overbend_deg')],
  ]);
});

test('every figure of the known machines has its source', () => {
  const figures = MACHINES.flatMap((m) =>
    Object.values(m as unknown as Record<string, unknown>),
  ).filter(
    (v): v is { value: unknown; source: unknown } =>
      typeof v === 'object' && v !== null && 'value' in v,
  );
  expect(figures.length).toBeGreaterThan(30);
  for (const { source } of figures) expect(source).toMatch(/\w{4}/);
});
