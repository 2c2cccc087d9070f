import { allowanceMm } from '../bending/bend.ts';
import { din6935K } from '../bending/rules/din6935.ts';
import { MACHINERYS_SHARE } from '../bending/rules/machinerys.ts';
import { measuredK } from '../bending/rules/measured.ts';
import { FOLDING, handbookGroup, LEAST_K_LIMIT, OWN_K, RADIUS, SCRIBED_MM } from '../data/tolerances/accuracy.ts';
import { cutTolerance, KERF_SHARE } from '../data/tolerances/cut.ts';
import { sheetTolerance } from '../data/tolerances/sheet.ts';
import type { BendRule } from '../model/bend-rule.ts';
import type { Material, Sourced } from '../model/material.ts';
import { bendTable, cutterFor, kerfOf, type Shop, type ShopBend } from '../model/shop.ts';
import type { AskedBend } from '../proof/asked.ts';
import { NORMAL95 } from '../statistics/student.ts';

/** Where and of what a part is made, as far as its errors depend on it. */
export interface Making {
  readonly material: Material;
  readonly thicknessMm: number;
  readonly rule: BendRule;
  readonly bends: readonly AskedBend[];
  readonly shop: Shop;
  readonly foldedOn: 'folder' | 'press brake';
  /** How fold lines come onto the metal. */
  readonly marks: Shop['marking']['folds'];
  /** What the inputs say for themselves, by their names. */
  readonly plusMinus: Readonly<Record<string, number>>;
}

/** A limit to either side of what is expected, and how far that lies from what was reckoned with. */
export interface Doubt {
  readonly limit: number;
  readonly mean: number;
}

/** How far everything may be off that makes a part, with a sentence for each on where that comes from. */
export interface Doubts {
  readonly thicknessMm: Doubt;
  readonly kFactor: Doubt;
  /** What the shop measured less what was reckoned with, by the fold; empty where it measured nothing else. */
  readonly kShift: ReadonlyMap<string, number>;
  readonly insideRadiusMm: Doubt;
  readonly landsMm: number;
  readonly angleDeg: number;
  /** Of the distance between two cut edges. */
  readonly cutMm: (sizeMm: number) => number;
  readonly kerfMm: number;
  readonly basis: readonly string[];
}

/** The usual size of a leg, mm, for how near a line is marked to its place. */
const LEG_MM = 60;

export const doubtsOf = (making: Making): Doubts => {
  const { material, thicknessMm, shop, marks } = making;
  const cutter = cutterFor(shop, thicknessMm);
  const process = cutter?.process ?? 'laser';
  const cut = cutTolerance(process, thicknessMm, LEG_MM);
  const folding = FOLDING[making.foldedOn];
  const [thickness, k, radius] = [thicknessDoubt(making), kDoubt(making), radiusDoubt(making)];
  const mark = marks === 'none' ? SCRIBED_MM.value : cut.value / Math.SQRT2;
  const own = measuredBend(making) === undefined || making.rule.id === 'measured' ? new Map<string, number>() : kShiftOf(making);
  const folds = making.bends.length === 0 ? [] : [
    told('K factor', k.limit, '', k.source),
    ...(own.size > 0 ? ["K factor: the shop's own bends say other than the rule, and what is expected goes by them."] : []),
    told('inside radius', radius.limit, ' mm', radius.source),
    `Where a fold lands: +-${short(Math.hypot(mark, folding.landsMm.value))} mm, from the mark (+-${short(mark)} mm, ${marks === 'none' ? SCRIBED_MM.source : cut.source}) and from the machine (+-${short(folding.landsMm.value)} mm, ${folding.landsMm.source}).`,
    told('bend angle', folding.angleDeg.value, ' degrees', folding.angleDeg.source),
  ];
  return {
    thicknessMm: thickness,
    kFactor: { limit: k.limit, mean: 0 },
    kShift: own,
    insideRadiusMm: { limit: radius.limit, mean: radius.mean },
    landsMm: Math.hypot(mark, folding.landsMm.value),
    angleDeg: folding.angleDeg.value,
    cutMm: (size) => cutTolerance(process, thicknessMm, size).value,
    kerfMm: cutter === undefined ? 0 : KERF_SHARE.value * kerfOf(cutter, material.family, thicknessMm),
    basis: [
      told('sheet thickness', thickness.limit, ' mm', `${thickness.source}${thickness.mean === 0 ? '' : `, on average ${short(thickness.mean)} mm more`}`),
      ...folds,
      `Cutting: ${cut.source}, between two cut edges or holes; +-${short(cut.value)} mm for ${LEG_MM} mm.`,
      `Width of the cut: ${KERF_SHARE.source}.`,
    ],
  };
};

const short = (value: number): string => String(Number(value.toPrecision(2)));

const told = (what: string, limit: number, unit: string, source: string): string =>
  `${what[0]?.toUpperCase()}${what.slice(1)}: +-${short(limit)}${unit}, ${source}.`;

type Sure = Doubt & Pick<Sourced<number>, 'source'>;

const GIVEN = 'as its input says';

const thicknessDoubt = ({ material, thicknessMm, plusMinus }: Making): Sure => {
  if (plusMinus['thickness'] !== undefined) return { limit: plusMinus['thickness'], mean: 0, source: GIVEN };
  const { value: [lower, upper], source } = sheetTolerance(material, thicknessMm);
  return { limit: (upper - lower) / 2, mean: (upper + lower) / 2, source };
};

/** The shop's own row that is nearest to the part's thickness. */
const measuredBend = ({ shop, material, thicknessMm }: Making): ShopBend | undefined =>
  shop.bends.filter((b) => b.material === material.id).reduce<ShopBend | undefined>((best, b) => (best === undefined || Math.abs(b.thickness - thicknessMm) < Math.abs(best.thickness - thicknessMm) ? b : best), undefined);

/**
 * Of the shop's own bends what their measurement left; of a rule out of a book how far the other books are from it:
 * DIN 6935, the FAA's handbook and Machinery's Handbook for the same sheet.
 */
const kDoubt = (making: Making): Sure => {
  const { rule, bends, plusMinus } = making;
  if (plusMinus['rule'] !== undefined) return { limit: plusMinus['rule'], mean: 0, source: GIVEN };
  const own = measuredBend(making);
  const isOwn = own !== undefined && bends.some((b) => kOfShop(making, b) !== undefined);
  if (isOwn) return { limit: Math.max(LEAST_K_LIMIT, NORMAL95 * own.kError), mean: 0, source: "from the shop's own bends" };
  if (rule.id === 'k') return { limit: OWN_K.value, mean: 0, source: OWN_K.source };
  const spread = Math.max(LEAST_K_LIMIT, ...bends.map((b) => spreadOfRules(making, b)));
  return { limit: spread, mean: 0, source: `which is how far DIN 6935, the FAA's and Machinery's handbooks are apart for this bend` };
};

const spreadOfRules = ({ material, thicknessMm: t }: Making, { insideRadiusMm: r, angleDeg, kFactor, allowanceMm: taken }: AskedBend): number => {
  if (taken === 0 || angleDeg < LEAST_BEND_DEG) return 0;
  const rad = (angleDeg * Math.PI) / 180;
  const bend = { thicknessMm: t, insideRadiusMm: r, angleDeg };
  const handbook = (MACHINERYS_SHARE[handbookGroup(material)] * 2) / Math.PI;
  const faa = (allowanceMm({ id: 'faa' }, bend) / rad - r) / t;
  return Math.max(...[din6935K(r, t) / 2, faa, handbook].map((k) => Math.abs(k - kFactor)));
};

/** Flatter bends have K factors that mean little. */
const LEAST_BEND_DEG = 15;

const kOfShop = ({ shop, material, thicknessMm }: Making, { insideRadiusMm, angleDeg }: AskedBend): number | undefined =>
  measuredK(bendTable(shop, material.id), { thicknessMm, insideRadiusMm, angleDeg });

const kShiftOf = (making: Making): Map<string, number> =>
  new Map(making.bends.flatMap((b) => {
    const k = b.allowanceMm === 0 ? undefined : kOfShop(making, b);
    return k === undefined ? [] : [[b.id, k - b.kFactor] as const];
  }));

const radiusDoubt = (making: Making): Sure => {
  const { plusMinus, bends } = making;
  if (plusMinus['radius'] !== undefined) return { limit: plusMinus['radius'], mean: 0, source: GIVEN };
  const own = measuredBend(making);
  if (own !== undefined && making.rule.id === 'measured') return { limit: NORMAL95 * own.radiusError, mean: 0, source: "from the shop's own bends" };
  const radius = Math.max(0, ...bends.map((b) => b.insideRadiusMm));
  return { limit: Math.max(RADIUS.value.leastMm, RADIUS.value.share * radius), mean: 0, source: RADIUS.source };
};
