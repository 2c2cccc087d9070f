import { describe, expect, test } from 'vitest';
import type { Vec3 } from '../../src/geometry/vec3.ts';
import { bendSheet, NO_WASTE, type TubeBending } from '../../src/tube/bend-sheet.ts';
import { tubeLegs, type TubeLegs } from '../../src/tube/centre-line.ts';
import {
  diametersOfBend,
  LEAST_DIAMETERS,
  LEAST_OF_FLUID_LINE,
  LEAST_OVER_GREATEST,
  ovalityPct,
  stretchOutside,
  wallFactor,
} from '../../src/tube/limits.ts';
import { pullOrder } from '../../src/tube/pull-order.ts';
import {
  gainMm,
  guessedSpringback,
  openedRadiusMm,
  pullToDeg,
  radiusOfGainMm,
  springbackOf,
} from '../../src/tube/springback.ts';
import { walkedOffMm, walkedTube } from '../../src/tube/walk.ts';
import { publishedFile } from '../helpers/published.ts';

/** Cases of tests/published/tube-bending.json, where each has its source. */
const { cases } = publishedFile<{
  readonly cases: readonly {
    readonly id: string;
    readonly inputs: never;
    readonly expected: never;
    readonly tolerance: { readonly abs?: number };
  }[];
}>('tube-bending');
const caseOf = <I, E>(
  id: string,
): { readonly inputs: I; readonly expected: E; readonly abs: number } => {
  const found = cases.find((c) => c.id === id);
  if (found === undefined) throw new Error(`there is no case ${id}`);
  seen.add(id);
  return { inputs: found.inputs, expected: found.expected, abs: found.tolerance.abs ?? 0 };
};
const seen = new Set<string>();
const near = (value: number, wanted: number, abs: number): void => {
  expect(Math.abs(value - wanted), `${value} for ${wanted}`).toBeLessThanOrEqual(abs + 1e-9);
};
const legsOf = (points: readonly Vec3[]): TubeLegs => {
  const legs = tubeLegs(points);
  if ('why' in legs) throw new Error(legs.why);
  return legs;
};
const plain = (formerMm: number): TubeBending => ({
  formerMm,
  springback: { fixedDeg: 0, share: 0 },
  isMeasured: false,
});
type Figures = Readonly<Record<string, number>>;

describe('one bend', () => {
  test('length, setback and gain', () => {
    const { inputs, expected, abs } = caseOf<Figures, Figures>('bend-len-setback');
    const [bend] = bendSheet(
      legsOf([
        [0, 0, 0],
        [500, 0, 0],
        [500, 500, 0],
      ]),
      plain(inputs['CLR'] as number),
      NO_WASTE,
    ).bends;
    near(bend?.arcMm ?? 0, expected['arc'] as number, abs);
    near(bend?.setbackMm ?? 0, expected['setback'] as number, abs);
    near(gainMm(100, 90), expected['gain'] as number, abs);
  });

  test('the arc beside the sharp corner, as a slide chart prints it', () => {
    const { expected, abs } = caseOf<Figures, Figures>('gain-unit-90');
    near((expected['sharp_in'] as number) - gainMm(1, 90), expected['arc_in'] as number, abs);
  });

  test('an offset of two equal bends has its marks the printed multiple of the offset apart', () => {
    const { inputs, expected, abs } = caseOf<
      { readonly bend_deg: readonly number[] },
      { readonly multiplier: readonly number[] }
    >('offset-multipliers');
    inputs.bend_deg.forEach((deg, i) => {
      const rad = (deg * Math.PI) / 180;
      const along = 1 / Math.tan(rad);
      const { bends } = bendSheet(
        legsOf([
          [-1, 0, 0],
          [0, 0, 0],
          [along, 1, 0],
          [along + 1, 1, 0],
        ]),
        plain(1e-6),
        NO_WASTE,
      );
      near(
        (bends[1]?.startMm ?? 0) - (bends[0]?.startMm ?? 0),
        expected.multiplier[i] as number,
        abs,
      );
    });
  });
});

describe('springback', () => {
  test('a fixed part and one that grows with the angle', () => {
    const { inputs, expected, abs } = caseOf<Figures, Figures>('springback-two-constants');
    const constants = {
      fixedDeg: inputs['fixed_deg'] as number,
      share: inputs['proportional'] as number,
    };
    near(
      pullToDeg(inputs['wanted_deg'] as number, constants),
      expected['machine_deg'] as number,
      abs,
    );
  });

  test('both out of two test bends', () => {
    const { inputs, expected, abs } = caseOf<
      {
        readonly tests: readonly { readonly machine_deg: number; readonly measured_deg: number }[];
        readonly wanted_deg: number;
      },
      Figures
    >('springback-from-two-tests');
    const found = springbackOf(
      inputs.tests.map((t) => ({ pulledDeg: t.machine_deg, stayedDeg: t.measured_deg })),
    );
    if (found === undefined) throw new Error('nothing was found');
    near(found.share, expected['proportional'] as number, abs);
    near(found.fixedDeg, expected['fixed_deg'] as number, abs);
    near(pullToDeg(inputs.wanted_deg, found), expected['machine_deg'] as number, abs);
    expect(found.spreadDeg).toBeNull();
    expect(springbackOf([{ pulledDeg: 90, stayedDeg: 86.5 }])).toBeUndefined();
  });

  test('one test bend: by the share alone it is the printed overbend, within what its text allows', () => {
    const { inputs, expected, abs } = caseOf<Figures, Figures>('springback-one-test');
    const stayed = inputs['measured_deg'] as number;
    const share = ((inputs['machine_deg'] as number) - stayed) / stayed;
    near(
      pullToDeg(inputs['wanted_deg'] as number, { fixedDeg: 0, share }),
      expected['machine_deg'] as number,
      abs,
    );
  });

  test('the first guess is that of the thin tube that does not harden', () => {
    const { inputs, expected, abs } = caseOf<
      readonly Figures[],
      { readonly springback_deg: readonly number[] }
    >('springback-theory');
    inputs.forEach((tube, i) => {
      const { share } = guessedSpringback(
        { diameterMm: tube['OD'] as number, wallMm: tube['t'] as number },
        tube['CLR'] as number,
        { yieldMpa: tube['yield_MPa'] as number, modulusMpa: tube['E_MPa'] as number },
      );
      near(share * 90, expected.springback_deg[i] as number, abs);
    });
  });

  test('it opens the radius', () => {
    const { inputs, expected, abs } = caseOf<Figures, Figures>('clr-opens');
    const [former, pulled, final] = [
      inputs['CLR_die'] as number,
      inputs['machine_deg'] as number,
      inputs['final_deg'] as number,
    ];
    near(openedRadiusMm(former, pulled, final), expected['CLR_effective'] as number, abs);
    const [bend] = bendSheet(
      legsOf([
        [0, 0, 0],
        [500, 0, 0],
        [500, 500, 0],
      ]),
      {
        formerMm: former,
        springback: { fixedDeg: pulled - final, share: 0 },
        isMeasured: true,
      },
      NO_WASTE,
    ).bends;
    near(bend?.arcMm ?? 0, expected['arc'] as number, abs);
    near(bend?.setbackMm ?? 0, expected['setback'] as number, abs);
    near((bend?.setbackMm ?? 0) - former, expected['leg_error_if_ignored'] as number, abs);
  });

  test('the radius out of one test bend', () => {
    const { inputs, expected, abs } = caseOf<Figures, Figures>('clr-from-test-bend');
    const gain =
      (inputs['leg_a_to_vertex'] as number) +
      (inputs['leg_b_to_vertex'] as number) -
      (inputs['cut_length'] as number);
    const deg = inputs['bend_deg'] as number;
    near(gain, expected['gain'] as number, abs);
    near(radiusOfGainMm(gain, deg), expected['CLR_effective'] as number, abs);
    near(
      radiusOfGainMm(gain + 1, deg) - radiusOfGainMm(gain, deg),
      expected['dR_per_mm_of_gain'] as number,
      abs,
    );
  });
});

describe('limits', () => {
  test('radius in diameters, and how round a bend has to stay', () => {
    const fia = caseOf<Figures, Figures>('rule-fia');
    near((fia.inputs['OD'] as number) * LEAST_DIAMETERS, fia.expected['min_CLR'] as number, 0);
    expect(LEAST_OVER_GREATEST).toBe(fia.expected['min_minor_over_major']);
    const fsae = caseOf<Figures, Figures>('rule-fsae');
    near((fsae.inputs['OD'] as number) * LEAST_DIAMETERS, fsae.expected['min_CLR'] as number, 1e-9);
    const line = caseOf<Figures, Figures>('rule-flatten-75');
    near(
      (line.inputs['OD_in'] as number) * LEAST_OF_FLUID_LINE,
      line.expected['min_flattened_in'] as number,
      1e-9,
    );
    const oval = caseOf<Figures, Figures>('rule-ovality-8');
    const { OD, Dmax, Dmin } = oval.inputs as unknown as { OD: number; Dmax: number; Dmin: number };
    near(ovalityPct(Dmax, Dmin, OD), oval.expected['ovality_pct'] as number, oval.abs);
  });

  test('wall factor, and stretch of the outside', () => {
    const { inputs, expected } = caseOf<Figures, Figures>('wall-factor');
    const { OD_in, wall_in, CLR_in } = inputs as unknown as Record<string, number>;
    near(wallFactor(OD_in as number, wall_in as number), expected['wall_factor'] as number, 1);
    near(diametersOfBend(OD_in as number, CLR_in as number), expected['D_of_bend'] as number, 0);
    const stretch = caseOf<Figures, Figures>('elongation');
    const { OD, CLR } = stretch.inputs as unknown as Record<string, number>;
    near(
      stretchOutside(OD as number, CLR as number),
      stretch.expected['elongation'] as number,
      stretch.abs,
    );
  });
});

describe('bend sheets', () => {
  interface Sheet {
    readonly straight: readonly number[];
    readonly rotation_deg: readonly number[];
    readonly bend_deg: readonly number[];
    readonly arc: readonly number[];
    readonly gain: readonly number[];
    readonly bend_start_from_first_end: readonly number[];
    readonly cut_length: number;
  }
  test.each(['lra-hoop', 'lra-hoop-4', 'lra-box3d'])('%s', (id) => {
    const { inputs, expected, abs } = caseOf<
      { readonly points: readonly Vec3[]; readonly CLR: readonly number[] },
      Sheet
    >(id);
    const legs = legsOf(inputs.points);
    const sheet = bendSheet(legs, plain(inputs.CLR[0] as number), NO_WASTE);
    const all = (values: readonly number[], wanted: readonly number[]): void => {
      expect(values).toHaveLength(wanted.length);
      values.forEach((value, i) => {
        near(value, wanted[i] as number, abs);
      });
    };
    all(sheet.straightsMm, expected.straight);
    all(
      sheet.bends.map((b) => b.rotateDeg),
      expected.rotation_deg,
    );
    all(
      sheet.bends.map((b) => b.angleDeg),
      expected.bend_deg,
    );
    all(
      sheet.bends.map((b) => b.arcMm),
      expected.arc,
    );
    all(
      sheet.bends.map((b) => gainMm(b.radiusMm, b.angleDeg)),
      expected.gain,
    );
    all(
      sheet.bends.map((b) => b.startMm),
      expected.bend_start_from_first_end,
    );
    near(sheet.cutLengthMm, expected.cut_length, abs);
    expect(walkedOffMm(inputs.points, walkedTube(sheet).points)).toBeLessThan(1e-6);
  });

  test('the other hand has all rotations the other way; turned end for end they stay', () => {
    const { inputs } = caseOf<{ readonly points: readonly Vec3[] }, object>('lra-mirror');
    const rotations = (points: readonly Vec3[]): number[] =>
      legsOf(points).corners.map((c) => c.rotateDeg);
    const angles = (points: readonly Vec3[]): number[] =>
      legsOf(points).corners.map((c) => c.angleDeg);
    const own = rotations(inputs.points);
    const mirrored = inputs.points.map(([x, y, z]): Vec3 => [x, -y, z]);
    rotations(mirrored).forEach((deg, i) => {
      near(deg, -(own[i] as number), 1e-9);
    });
    angles(mirrored).forEach((deg, i) => {
      near(deg, angles(inputs.points)[i] as number, 1e-9);
    });
    // Seen from the other end the first rotation is that of the last bend, and each keeps its sign.
    const back = rotations(inputs.points.toReversed());
    expect(back).toHaveLength(own.length);
    own.slice(1).forEach((deg, i) => {
      near(back[back.length - 1 - i] as number, deg, 1e-9);
    });
  });

  test('a hoop on a bench bender', () => {
    const { inputs, expected, abs } = caseOf<
      {
        readonly points: readonly Vec3[];
        readonly OD: number;
        readonly CLR_die: number;
        readonly springback: { readonly fixed_deg: number; readonly proportional: number };
        readonly clamp_length: number;
        readonly follower_needed_behind_last_tangent: number;
      },
      {
        readonly machine_deg: readonly number[];
        readonly CLR_effective: number;
        readonly straight: readonly number[];
        readonly bend_start_from_first_end: readonly number[];
        readonly cut_length: number;
        readonly extra_at_tail: number;
        readonly overall_outside_width: number;
      }
    >('bend-sheet-hoop');
    const { fixed_deg: fixedDeg, proportional: share } = inputs.springback;
    const sheet = bendSheet(
      legsOf(inputs.points),
      { formerMm: inputs.CLR_die, springback: { fixedDeg, share }, isMeasured: true },
      NO_WASTE,
    );
    sheet.bends.forEach((bend, i) => {
      near(bend.pullToDeg, expected.machine_deg[i] as number, abs);
      near(bend.radiusMm, expected.CLR_effective, abs);
      near(bend.startMm, expected.bend_start_from_first_end[i] as number, abs);
    });
    sheet.straightsMm.forEach((mm, i) => {
      near(mm, expected.straight[i] as number, abs);
    });
    near(sheet.cutLengthMm, expected.cut_length, abs);
    const order = pullOrder(sheet, {
      clampMm: inputs.clamp_length,
      followerMm: inputs.follower_needed_behind_last_tangent,
    });
    expect(order.gripMm).toEqual({ lead: 0, tail: expected.extra_at_tail });
    expect(order.pulls.map(({ bend, clampAt }) => [bend, clampAt])).toEqual([
      [0, 'lead'],
      [1, 'lead'],
    ]);
    expect(order.pulls.flatMap((p) => [p.clampShortMm, p.followerShortMm])).toEqual([0, 0, 0, 0]);
    const [across] = [walkedTube(sheet).points.at(-1) as Vec3];
    near(Math.hypot(...across) + inputs.OD, expected.overall_outside_width, abs);
  });
});

test('every case is held to', () => {
  expect(cases.map(({ id }) => id).filter((id) => !seen.has(id))).toEqual([]);
});
