import { type Bend, bendFigures, allowanceMm } from '../../src/bending/bend.ts';
import { leastRadiusMm } from '../../src/bending/least-radius.ts';
import { din6935K } from '../../src/bending/rules/din6935.ts';
import {
  elasticSpringback,
  type SpringbackRow,
  stopAtDeg,
  tabledFactor,
  toolRadiusMm,
} from '../../src/bending/springback.ts';
import {
  airForceKnPerM,
  airRadiusMm,
  leastLegMm,
  usualOpeningMm,
} from '../../src/bending/v-die.ts';
import { setbackMm } from '../../src/bending/setback.ts';
import { findMaterial } from '../../src/data/materials.ts';
import type { BendRule } from '../../src/model/bend-rule.ts';

/** Inputs of a published case, as they stand in its file. */
export type Inputs = Readonly<Record<string, unknown>>;

/**
 * Answers of the product, under the names that the case expects. A list is compared figure by
 * figure.
 */
export type Answers = Readonly<Record<string, number | boolean | readonly number[]>>;

const DIN: BendRule = { id: 'din6935' };
const FAA: BendRule = { id: 'faa' };
const k = (factor: number): BendRule => ({ id: 'k', k: factor });

/** Groups of Machinery's Handbook as the cases name them. */
const MACHINERYS: Readonly<Record<string, BendRule>> = {
  'soft brass, soft copper': { id: 'mh1' },
  'half-hard copper and brass, soft steel, aluminium': { id: 'mh2' },
  'bronze, hard copper, cold-rolled steel, spring steel': { id: 'mh3' },
  'MH soft': { id: 'mh1' },
  'MH soft steel/aluminium': { id: 'mh2' },
  'MH hard': { id: 'mh3' },
  FAA,
};

const first = (inputs: Inputs, names: readonly string[]): number => {
  const name = names.find((n) => typeof inputs[n] === 'number');
  if (name === undefined) throw new Error(`none of ${names.join(', ')} is given`);
  return inputs[name] as number;
};

const sum = (lengths: unknown): number => (lengths as readonly number[]).reduce((a, b) => a + b, 0);

/** The bend angle, by which the metal is turned: 180 less the opening between the legs. */
const turned = (inputs: Inputs): number => {
  const opening = inputs['opening_angle_deg'] ?? inputs['included_deg'];
  return typeof opening === 'number' ? 180 - opening : first(inputs, ['bend_deg', 'bend_deg_each']);
};

/**
 * The bend of a case. Every formula scales with its lengths, so inches go in and come out as they
 * are.
 */
const bendOf = (inputs: Inputs, angleDeg = turned(inputs)): Bend => ({
  thicknessMm: first(inputs, ['s_mm', 't_mm', 'T_in', 't_in', 'thickness_mm']),
  insideRadiusMm: first(inputs, ['r_mm', 'R_mm', 'R_in', 'inside_radius_mm']),
  angleDeg,
});

const din = (inputs: Inputs): Answers => {
  const bend = bendOf(inputs);
  const v = -bendFigures(DIN, bend, 'outside').deductionMm;
  return { k: din6935K(bend.insideRadiusMm, bend.thicknessMm), v_mm: v, v_deduct_mm: -v };
};

/**
 * Opening at which the sum of the legs is the blank, for r much larger than s, found by halving the
 * interval.
 */
const openingWithoutDeduction = (): number => {
  let [low, high] = [90, 180];
  for (let i = 0; i < 60; i += 1) {
    const angleDeg = (low + high) / 2;
    const { deductionMm } = bendFigures(
      DIN,
      { thicknessMm: 1, insideRadiusMm: 1e9, angleDeg },
      'outside',
    );
    if (deductionMm > 0) low = angleDeg;
    else high = angleDeg;
  }
  return 180 - low;
};

const least = (inputs: Inputs): Answers => {
  const found = findMaterial((inputs['material'] as string).split(' (')[0] ?? '');
  if (!found.ok) throw new Error(found.reason);
  const thickness = first(inputs, ['s_mm', 't_mm']);
  const r = leastRadiusMm(found.value, thickness);
  return { r_min_mm: r, factor: r / thickness };
};

/** A U-channel: a setback at each end of each flat, and two allowances. */
const channel = (inputs: Inputs): Answers => {
  const { allowanceMm: allowance, setbackMm: setback } = bendFigures(
    FAA,
    bendOf(inputs, 90),
    'outside',
  );
  const [a = 0, b = 0, c = 0] = inputs['mold_line_in'] as readonly number[];
  const flats = [a - setback, b - 2 * setback, c - setback];
  return {
    setback_in: setback,
    flats_in: flats,
    bend_allowance_in: allowance,
    TDW_in: sum(flats) + 2 * allowance,
  };
};

const mould = (inputs: Inputs): Answers => {
  const figures = bendFigures(k(first(inputs, ['K'])), bendOf(inputs), 'outside');
  const isMouldLine = turned(inputs) <= 90;
  return {
    BA_mm: figures.allowanceMm,
    ...(isMouldLine && { setback_mm: figures.setbackMm, BD_mm: figures.deductionMm }),
  };
};

/**
 * A joggle: two equal bends in opposite directions. The slope between them is as long as its middle
 * line less both bends' setbacks on that line, each of which is halfway between the outside and the
 * inside one.
 */
const joggle = (inputs: Inputs): Answers => {
  const bend = bendOf(inputs);
  const [outside, inside] = (['outside', 'inside'] as const).map((m) =>
    setbackMm(bend.angleDeg, bend.insideRadiusMm, bend.thicknessMm, m),
  );
  const angle = (bend.angleDeg * Math.PI) / 180;
  const slope =
    first(inputs, ['offset_same_face_mm']) / Math.sin(angle) - (outside ?? 0) - (inside ?? 0);
  const arc = allowanceMm(k(first(inputs, ['K'])), bend);
  const run =
    slope * Math.cos(angle) + 2 * (bend.insideRadiusMm + bend.thicknessMm / 2) * Math.sin(angle);
  return {
    slope_flat_mm: slope,
    run_mm: run,
    developed_between_outer_tangents_mm: slope + 2 * arc,
  };
};

/** The bend zone with a given K, between straights. The rule that chooses K is the case's own. */
const textbook = (inputs: Inputs, K: number): Answers => {
  const allowance = allowanceMm(k(K), bendOf(inputs));
  return { BA_mm: allowance, L_mm: sum(inputs['flats_mm']) + allowance };
};

/** The cubic equation, in inches and pounds or in mm and MPa: only ratios matter to it. */
const cubic = (inputs: Inputs): Answers => {
  const strength = {
    yieldMpa: first(inputs, ['Y_MPa', 'Y_psi']),
    modulusMpa: first(inputs, ['E_MPa', 'E_psi']),
  };
  const after = elasticSpringback(
    strength,
    first(inputs, ['Ri_mm', 'Ri_in']),
    first(inputs, ['T_mm', 'T_in']),
  );
  const asked = inputs['wanted_bend_deg'];
  const shared = {
    Ri_over_Rf: after.radiusRatio,
    Rf_mm: after.radiusAfterMm,
    Rf_in: after.radiusAfterMm,
    Ks: after.factor,
  };
  return typeof asked === 'number' ? { ...shared, bend_to_deg: asked / after.factor } : shared;
};

const tabled = (inputs: Inputs): Answers => {
  const [r, t] = [first(inputs, ['part_inside_radius_r2_mm']), first(inputs, ['s_mm'])];
  // The cases read the figure of the nearest column; between columns the product interpolates.
  const factor = Math.round(tabledFactor(inputs['material'] as SpringbackRow, r, t) * 100) / 100;
  const back = { factor, basis: 'published', source: '' } as const;
  return {
    kR: factor,
    tool_radius_r1_mm: toolRadiusMm(r, t, back),
    tool_bend_deg: stopAtDeg(first(inputs, ['part_bend_deg']), back),
  };
};

const openingRatio = (inputs: Inputs): Answers => {
  const thickness = 25.4 * first(inputs, ['t_in']);
  return { V_over_t: usualOpeningMm(thickness) / thickness };
};

/** How the product works out each case, by id, else by topic. */
export const RUN: Readonly<Record<string, (inputs: Inputs) => Answers>> = {
  'DIN 6935 developed length': din,
  'din-tab-60': (inputs) => {
    const answers = din(inputs);
    return {
      ...answers,
      L_mm_before_rounding:
        first(inputs, ['a_mm']) + first(inputs, ['b_mm']) + (answers['v_mm'] as number),
    };
  },
  'din-signchange': () => ({ opening_angle_deg_where_v_changes_sign: openingWithoutDeduction() }),
  'DIN 6935 k factor': (inputs) => ({ k: din6935K(first(inputs, ['r_over_s']), 1) }),
  'minimum inside radius': least,
  // S275JR is sheet of the class "over 390 to 490 MPa" of this case.
  'din-minr-6': (inputs) => {
    const s275 = findMaterial('s275');
    if (!s275.ok) throw new Error(s275.reason);
    const radius = (angleDeg: number): number =>
      leastRadiusMm(s275.value, first(inputs, ['s_mm']), angleDeg);
    return { r_min_mm_bend_up_to_120: radius(120), r_min_mm_bend_over_120: radius(121) };
  },
  // 270 degrees is more than one bend turns; two of 135 make the same arc.
  'mean-fet-1': (inputs) => {
    const thicknessMm = first(inputs, ['thickness_mm']);
    const insideRadiusMm = first(inputs, ['outside_diameter_mm']) / 2 - thicknessMm;
    const half = allowanceMm(k(0.5), {
      thicknessMm,
      insideRadiusMm,
      angleDeg: first(inputs, ['arc_deg']) / 2,
    });
    return { L_mm: sum(inputs['straights_mm']) + 2 * half };
  },
  'mean-wit': (inputs) => {
    const arc = allowanceMm(k(0.5), bendOf(inputs, 90));
    return {
      arc_each_mm: arc,
      L_mm: first(inputs, ['flats_total_mm']) + first(inputs, ['bends_90']) * arc,
    };
  },
  "Machinery's Handbook bend length": (inputs) => ({
    L_in: allowanceMm(MACHINERYS[inputs['group'] as string] as BendRule, bendOf(inputs)),
  }),
  'FAA U-channel': channel,
  'FAA bend allowance chart': (inputs) => ({
    BA_per_degree_in: allowanceMm(FAA, bendOf(inputs, 1)),
  }),
  // The printed width is that of the channel of the case faa-u.
  'FAA sanity rule': (inputs) => {
    const width = channel({ T_in: 0.04, R_in: 0.16, mold_line_in: [1, 2, 1] })['TDW_in'] as number;
    return { TDW_less_than_sum: width < first(inputs, ['sum_mold_lines_in']) };
  },
  'FAA J-chart': (inputs) => {
    const { deductionMm } = bendFigures(FAA, bendOf(inputs), 'outside');
    return { deduction_in: deductionMm, TDW_in: sum(inputs['mold_line_in']) - deductionMm };
  },
  'bend allowance constant': (inputs) => ({ coefficient: allowanceMm(FAA, bendOf(inputs)) }),
  // Setback of a bend with r + t = 1. Over 90 degrees legs are not measured to the mould line.
  'setback K': (inputs) =>
    turned(inputs) <= 90 ? { K: setbackMm(turned(inputs), 0.5, 0.5, 'outside') } : {},
  'textbook bend allowance and force': (inputs) => textbook(inputs, 0.33),
  'textbook bend allowance': (inputs) => textbook(inputs, 0.5),
  'gro-L': (inputs) => {
    const allowance = allowanceMm(k(0.33), bendOf(inputs));
    const side = (first(inputs, ['blank_in']) - allowance) / 2;
    return {
      BA_in: allowance,
      side_flat_in: side,
      stretched_mid_arc_in: allowanceMm(k(0.5), bendOf(inputs)),
    };
  },
  'open hem developed length': (inputs) => ({
    L_mm: sum(inputs['flats_mm']) + allowanceMm(k(first(inputs, ['K'])), bendOf(inputs)),
  }),
  'closed hem allowance': (inputs) => ({
    bend_deduction_mm: bendFigures(
      DIN,
      { thicknessMm: first(inputs, ['t_mm']), insideRadiusMm: 0, angleDeg: 180 },
      'outside',
    ).deductionMm,
  }),
  'offset (joggle / Z) developed length': joggle,
  'bend deduction identity': mould,
  // A tube's centre line is an arc without thickness.
  'tube developed length': (inputs) => ({
    L_mm:
      sum(inputs['straights_mm']) +
      allowanceMm(k(0.5), {
        thicknessMm: 0,
        insideRadiusMm: first(inputs, ['CLR_mm']),
        angleDeg: turned(inputs),
      }),
  }),
  'springback cubic': cubic,
  'springback factor kR': tabled,
  'air bending V, flange, radius': (inputs) => ({
    b_min_mm: leastLegMm(first(inputs, ['V_mm']), 90),
    ir_mm: airRadiusMm(first(inputs, ['V_mm'])),
  }),
  'air bending force': (inputs) => ({
    F_kN_per_m: airForceKnPerM(
      first(inputs, ['Rm_MPa']),
      first(inputs, ['t_mm']),
      first(inputs, ['V_mm']),
    ),
  }),
  'air-vrule-inch-0.075': openingRatio,
  'air-vrule-inch-0.25': openingRatio,
  'minimum leg by angle': (inputs) => ({
    leg_over_V: leastLegMm(1, 180 - first(inputs, ['included_angle_deg'])),
  }),
  'air-bend inside radius': (inputs) => ({ Ri_mm: airRadiusMm(first(inputs, ['V_mm'])) }),
  // Without a radius only the share of the thickness is left, for which the handbooks' rounded pi
  // makes no difference.
  'equivalent K factor': (inputs) => ({
    K: bendFigures(
      MACHINERYS[inputs['rule'] as string] as BendRule,
      { thicknessMm: 1, insideRadiusMm: 0, angleDeg: 90 },
      'outside',
    ).kFactor,
  }),
};

const MOULD_LINE =
  'over 90 degrees a leg is measured to the outermost tangent, as DIN 6935 does, not to the mould line';
const SPRINGBACK = 'a rule of thumb for a method, not for a radius and a thickness';
const V_DIE = 'makers differ: the opening comes from charts of folding practice';
const TUBE = 'only the arc of a tube is computed, not its wall';
const HEM =
  'seam allowances for light gauge leave the thickness out of account: hems take off what common practice does';

/** Reason why a value is not worked out, by `id.key`, id or topic. */
export const NOT_RUN: Readonly<Record<string, string>> = {
  'din-tab-60.k_read_from_chart': "read off the book's chart by eye",
  'din-tab-60.L_mm_rounded_up': 'a blank that is cut is not rounded to whole millimetres',
  'din-west-116': "the book's rule of thumb is not offered as a rule",
  'bend angle meaning': 'inputs are bend angles; nothing converts an opening angle yet',
  'FAA relief hole': 'relief holes are not sized by alloy',
  'ac-k-115': MOULD_LINE,
  'ac-k-140': MOULD_LINE,
  'ac-k-158': MOULD_LINE,
  'bd-135-2-1.5.setback_mm': MOULD_LINE,
  'bd-135-2-1.5.BD_mm': MOULD_LINE,
  'gro-ex.Kba': 'the K of this textbook is not offered as a rule; it is given as K',
  'gro-13.Kba': 'as gro-ex',
  'gro-ex.F_N': 'the force goes by a published chart, which lies 10 % over this textbook',
  'gro-L.stop_in': 'the position of a back stop is not computed yet',
  'overbend practice': SPRINGBACK,
  'minimum radius from ductility': 'least radii come from the tables of the material standards',
  'minimum inside radius, low-carbon steel':
    'least radii come from the tables of the material standards',
  'air-vrule-pbm-0.7': V_DIE,
  'air-vrule-pbm-2.0': V_DIE,
  'air-vrule-pbm-12.0': V_DIE,
  'hem allowance': HEM,
  'feature to bend distance': 'countersinks are not known yet',
  'hole to bend distance':
    'distances of features are judged by the checks, which have their own tests',
  'tube wall thinning': TUBE,
  'tube wall before bending': TUBE,
  'bend intrados/extrados factors': TUBE,
};
