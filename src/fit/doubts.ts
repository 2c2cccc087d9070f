import { capital } from '../text/capital.ts';
import { allowanceMm } from '../bending/bend.ts';
import { HEM_K, hemFormOf, WIDEST_HEM } from '../bending/hem.ts';
import { meaningOf } from '../bending/meaning.ts';
import { din6935K } from '../bending/rules/din6935.ts';
import { MACHINERYS_SHARE } from '../bending/rules/machinerys.ts';
import { measuredK, measuredRadiusMm, measuredRow } from '../bending/rules/measured.ts';
import {
  FOLDING,
  handbookGroup,
  LEAST_K_LIMIT,
  OWN_K,
  RADIUS,
  SCRIBED_MM,
} from '../data/tolerances/accuracy.ts';
import { cutTolerance, KERF_SHARE } from '../data/tolerances/cut.ts';
import { sheetTolerance } from '../data/tolerances/sheet.ts';
import type { BendRule, MeasuredBend } from '../model/bend-rule.ts';
import type { Material, Sourced } from '../model/material.ts';
import { bendTable, cutterFor, kerfOf, type Shop } from '../model/shop.ts';
import type { AskedBend } from '../contract/asked.ts';
import { NORMAL95 } from '../statistics/student.ts';
import type { OwnErrors } from './fold-with-errors.ts';

/** The shop and the sheet that a part is made with, as far as its errors depend on them. */
export interface Making {
  readonly material: Material;
  readonly thicknessMm: number;
  readonly rule: BendRule;
  readonly bends: readonly AskedBend[];
  readonly shop: Shop;
  readonly foldedOn: 'folder' | 'press brake';
  /** How fold lines come onto the metal. */
  readonly marks: Shop['marking']['folds'];
  /** What the inputs state about themselves, by their names. */
  readonly plusMinus: Readonly<Record<string, number>>;
}

/**
 * A limit to either side of what is expected, and how far that lies from the figure that was used.
 */
export interface Doubt {
  readonly limit: number;
  readonly mean: number;
}

/**
 * How far each thing that makes a part may be off, with a sentence for each on where the figure
 * comes from.
 */
export interface Doubts {
  readonly thicknessMm: Doubt;
  readonly kFactor: Doubt;
  readonly insideRadiusMm: Doubt;
  /**
   * Error of K for every millimetre of error of the inside radius, where both were measured
   * together.
   */
  readonly kPerRadius: number;
  /**
   * How the shop's own measured bends differ from the figures that were used, by the fold; empty
   * where they are the same.
   */
  readonly shifts: ReadonlyMap<string, OwnErrors>;
  /** How much the bend zone of one bend is longer or shorter than the next one's. */
  readonly spreadMm: number;
  readonly landsMm: number;
  readonly angleDeg: number;
  /** Limit of the distance between two cut edges. */
  readonly cutMm: (sizeMm: number) => number;
  readonly kerfMm: number;
  readonly basis: readonly string[];
}

/** The usual length of a leg, mm, for how near to its place a line is marked. */
const LEG_MM = 60;

export const doubtsOf = (making: Making): Doubts => {
  const { material, thicknessMm, shop, marks } = making;
  const cutter = cutterFor(shop, thicknessMm);
  const process = cutter?.process ?? 'laser';
  const cut = cutTolerance(process, thicknessMm, LEG_MM);
  const folding = FOLDING[making.foldedOn];
  const [thickness, k, radius] = [thicknessDoubt(making), kDoubt(making), radiusDoubt(making)];
  const mark = marks === 'none' ? SCRIBED_MM.value : cut.value / Math.SQRT2;
  const own = shiftsOf(making);
  const record = recordOf(making);
  const landsMm = Math.hypot(mark, folding.landsMm.value);
  const folds = [
    told('K factor', k.limit, '', k.source),
    told('inside radius', radius.limit, ' mm', radius.source),
    ...(own.size > 0 ? [shiftText(making, own)] : []),
    ...spreadText(record?.spreadMm ?? 0),
    `Where a fold lands: ±${short(landsMm)} mm, from the mark (±${short(mark)} mm, ${marks === 'none' ? SCRIBED_MM.source : cut.source}) and from the machine (±${short(folding.landsMm.value)} mm, ${folding.landsMm.source}).`,
    told('bend angle', folding.angleDeg.value, ' degrees', folding.angleDeg.source),
  ];
  return {
    thicknessMm: thickness,
    kFactor: { limit: k.limit, mean: 0 },
    insideRadiusMm: { limit: radius.limit, mean: radius.mean },
    kPerRadius: radius.isOwn && record !== undefined ? kPerRadiusOf(record) : 0,
    shifts: own,
    spreadMm: NORMAL95 * (record?.spreadMm ?? 0),
    landsMm,
    angleDeg: folding.angleDeg.value,
    cutMm: (size) => cutTolerance(process, thicknessMm, size).value,
    kerfMm:
      cutter === undefined ? 0 : KERF_SHARE.value * kerfOf(cutter, material.family, thicknessMm),
    basis: [
      told(
        'sheet thickness',
        thickness.limit,
        ' mm',
        `${thickness.source}${thickness.mean === 0 ? '' : `, on average ${short(thickness.mean)} mm more`}`,
      ),
      ...(making.bends.length === 0 ? [] : folds),
      `Cutting: ${cut.source}, between two cut edges or holes; ±${short(cut.value)} mm for ${LEG_MM} mm.`,
      `Width of the cut: ${KERF_SHARE.source}.`,
    ],
  };
};

const spreadText = (spreadMm: number): string[] =>
  spreadMm > 0
    ? [
        told(
          'one bend and the next',
          NORMAL95 * spreadMm,
          ' mm',
          "in the length of their zones, by what the shop's own strips scattered",
        ),
      ]
    : [];

const short = (value: number): string => String(Number(value.toPrecision(2)));

const told = (what: string, limit: number, unit: string, source: string): string =>
  `${capital(what)}: ±${short(limit)}${unit}, ${source}.`;

type Sure = Doubt & Pick<Sourced<number>, 'source'>;

const GIVEN = 'as its input says';

const thicknessDoubt = ({ material, thicknessMm, plusMinus }: Making): Sure => {
  if (plusMinus['thickness'] !== undefined)
    return { limit: plusMinus['thickness'], mean: 0, source: GIVEN };
  const {
    value: [lower, upper],
    source,
  } = sheetTolerance(material, thicknessMm);
  return { limit: (upper - lower) / 2, mean: (upper + lower) / 2, source };
};

const rowsOf = ({ shop, material }: Making): readonly MeasuredBend[] =>
  bendTable(shop, material.id);

const asBend = (thicknessMm: number, { insideRadiusMm, angleDeg }: AskedBend) => ({
  thicknessMm,
  insideRadiusMm,
  angleDeg,
});

/**
 * The row of a bend that is made with a tool the shop has measured. A bend about a former has none,
 * nor has a teardrop bent over a wire, whose length is its own.
 */
const rowOf = (making: Making, bend: AskedBend): MeasuredBend | undefined => {
  if (bend.allowanceMm === 0 || bend.teardropMm !== undefined) return undefined;
  const row = measuredRow(rowsOf(making), asBend(making.thicknessMm, bend));
  return row === undefined ||
    bend.insideRadiusMm > Math.max(WIDEST_HEM * making.thicknessMm, 2 * row.insideRadiusMm)
    ? undefined
    : row;
};

/**
 * The shop's measurement of the sharpest of the part's bends that it has measured at all; that of
 * its hems if there is no other.
 */
const recordOf = (making: Making): MeasuredBend | undefined => {
  const rows = making.bends
    .toSorted((a, b) => a.insideRadiusMm - b.insideRadiusMm)
    .flatMap((b) => rowOf(making, b) ?? []);
  return rows.find((row) => row.hem === undefined) ?? rows[0];
};

/**
 * The share of the error of K that goes with the error of the radius, for every millimetre of it.
 */
const kPerRadiusOf = ({ kError, radiusErrorMm, correlation }: MeasuredBend): number =>
  radiusErrorMm === 0 ? 0 : (correlation * kError) / radiusErrorMm;

/**
 * The uncertainty of K. For the shop's own bends it is what their measurement left, apart from what
 * goes with the radius. For a rule from a book it is how far the other books differ from it: DIN
 * 6935, the FAA's handbook and Machinery's Handbook for the same sheet.
 */
const kDoubt = (making: Making): Sure => {
  const { rule, bends, plusMinus } = making;
  if (plusMinus['rule'] !== undefined) return { limit: plusMinus['rule'], mean: 0, source: GIVEN };
  const own = recordOf(making);
  if (own !== undefined) {
    const alone = plusMinus['radius'] === undefined ? Math.sqrt(1 - own.correlation ** 2) : 1;
    return {
      limit: Math.max(LEAST_K_LIMIT, NORMAL95 * own.kError * alone),
      mean: 0,
      source: alone < 1 ? `${OWN_BENDS}, beside what goes with the radius` : OWN_BENDS,
    };
  }
  if (rule.id === 'k') return { limit: OWN_K.value, mean: 0, source: OWN_K.source };
  const spread = Math.max(LEAST_K_LIMIT, ...bends.map((b) => spreadOfRules(making, b)));
  return {
    limit: spread,
    mean: 0,
    source: `which is how far DIN 6935, the FAA's and Machinery's handbooks are apart for this bend`,
  };
};

const OWN_BENDS = "from the shop's own bends";

const spreadOfRules = (
  { material, thicknessMm: t }: Making,
  { insideRadiusMm: r, angleDeg, kFactor, allowanceMm: taken }: AskedBend,
): number => {
  if (taken === 0 || angleDeg < LEAST_BEND_DEG) return 0;
  const rad = (angleDeg * Math.PI) / 180;
  const bend = { thicknessMm: t, insideRadiusMm: r, angleDeg };
  const handbook = (MACHINERYS_SHARE[handbookGroup(material)] * 2) / Math.PI;
  if (hemFormOf(bend) === 'closed') return HEM_DOUBT;
  const faa = (allowanceMm({ id: 'faa' }, bend) / rad - r) / t;
  const din = meaningOf({ id: 'din6935' }, bend) === 'whole' ? [din6935K(r, t) / 2] : [];
  return Math.max(...[...din, faa, handbook].map((k) => Math.abs(k - kFactor)));
};

/**
 * The range of K from a closed hem that takes 0.43 t off, K 0.5, to one that takes nothing off (US
 * Navy, Steelworker manual): 2 / pi - 1 / 2.
 */
const HEM_DOUBT = 2 / Math.PI - HEM_K;

/** The K factors of flatter bends mean little. */
const LEAST_BEND_DEG = 15;

/**
 * The differences between the shop's own bends and the figures that were used. K and radius of the
 * shop's own bends go together: a part is folded with the tool that gave that radius, whatever its
 * blank was cut for.
 */
const shiftsOf = (making: Making): Map<string, OwnErrors> => {
  const rows = rowsOf(making);
  return new Map(
    making.bends.flatMap((b) => {
      const bend = asBend(making.thicknessMm, b);
      const [k, radius] =
        rowOf(making, b) === undefined ? [] : [measuredK(rows, bend), measuredRadiusMm(rows, bend)];
      if (k === undefined || radius === undefined) return [];
      const off: OwnErrors = {
        kFactor: k - b.kFactor,
        insideRadiusMm: making.plusMinus['radius'] === undefined ? radius - b.insideRadiusMm : 0,
      };
      return Math.abs(off.kFactor ?? 0) < FILED_K_STEP &&
        Math.abs(off.insideRadiusMm ?? 0) < FILED_RADIUS_STEP_MM
        ? []
        : [[b.id, off] as const];
    }),
  );
};

/** Figures of a shop file are rounded to this. */
const FILED_K_STEP = 1e-4;
const FILED_RADIUS_STEP_MM = 1e-3;

const shiftText = ({ bends }: Making, shifts: ReadonlyMap<string, OwnErrors>): string => {
  const [[id, { kFactor = 0, insideRadiusMm = 0 }] = ['', {}]] = shifts;
  const bend = bends.find((b) => b.id === id);
  return `K and inside radius: the shop's own bends have K ${short((bend?.kFactor ?? 0) + kFactor)} with radius ${short((bend?.insideRadiusMm ?? 0) + insideRadiusMm)}, and the blank was cut for other figures. What is expected goes by the measured ones.`;
};

interface SureRadius extends Sure {
  /** Whether the radius was measured, with the K that goes with it. */
  readonly isOwn?: true;
}

const radiusDoubt = (making: Making): SureRadius => {
  const { plusMinus, bends } = making;
  if (plusMinus['radius'] !== undefined)
    return { limit: plusMinus['radius'], mean: 0, source: GIVEN };
  const own = recordOf(making);
  if (own !== undefined)
    return { limit: NORMAL95 * own.radiusErrorMm, mean: 0, source: OWN_BENDS, isOwn: true };
  const radius = Math.max(0, ...bends.map((b) => b.insideRadiusMm));
  return {
    limit: Math.max(RADIUS.value.leastMm, RADIUS.value.share * radius),
    mean: 0,
    source: RADIUS.source,
  };
};
