import { atLeast, atMost, figure } from '../figures.ts';
import type { CommonValues } from '../input/common.ts';
import type { HoleSpec } from '../input/holes.ts';
import type { Built, Piece } from '../input/template.ts';
import { type Finding, stop, warn } from '../model/finding.ts';
import type { Report, ReportFigure, ReportTable } from '../model/report.ts';
import { baffle, type BaffleFigures, type MadeBaffle, MOST_OPEN_PERCENT } from './baffle.ts';
import { type BaffleWords, wordsOf } from './baffle-ask.ts';
import { bayLitres, type Bays, baySpacing, bayStartsMm, equalBays } from './baffle-bays.ts';
import type { BaffleAsk } from './baffle-plate.ts';
import { BAFFLE_SIDES, type BaffleSection, sectionAreaMm2 } from './baffle-section.ts';

/** What the baffles of a tank are asked to be, in mm. */
export interface BaffleSet extends CommonValues, BaffleWords {
  readonly width: number;
  readonly height: number;
  readonly heightRight: number | undefined;
  readonly heightShallow: number | undefined;
  readonly wallRadius: number;
  readonly roofRadius: number | undefined;
  readonly tankLength: number | undefined;
  readonly longestBay: number;
  readonly flangeFloor: boolean;
  readonly flangeLeft: boolean;
  readonly flangeRight: boolean;
  readonly flangeRoof: boolean;
  readonly swage: 'none' | 'upright' | 'level';
  readonly swageWidth: number;
  readonly holesPanel: readonly HoleSpec[];
}

/** One baffle; or all those of a tank of known length, with its bays. */
export function baffleSet(v: BaffleSet): Built {
  const impossible = impossibleTank(v);
  if (impossible.length > 0) return { findings: impossible };
  if (v.tankLength === undefined) {
    const { part, findings, figures } = baffle(v, askOf(v, sectionAt(v, 0)));
    return part === undefined ? { findings } : { part, findings, report: { figures: figuresOf(figures) } };
  }
  const needed = baySpacing(v.tankLength, v.longestBay, v.thicknessMm);
  // Whoever asks for a baffle gets one, told that the tank would do without.
  const bays = needed.count > 0 ? needed : equalBays(v.tankLength, 1, v.thicknessMm);
  const findings = impossibleBays(v, v.tankLength, bays);
  if (findings.length > 0) return { findings };
  const built = inTank(v, bays);
  return needed.count > 0 ? built : { ...built, findings: [notNeeded(v, v.tankLength), ...(built.findings ?? [])] };
}

/** A baffle is measured at its face away from the deep end, where the tank is shallower. */
const sectionOf = (v: BaffleSet, bays: Bays, station: number): BaffleSection => sectionAt(v, station + bays.thicknessMm);

function inTank(v: BaffleSet, bays: Bays): Built {
  // In a tank of one depth all are alike.
  const isWedge = fallMm(v) > 0;
  const make = (at: number): MadeBaffle => baffle(v, askOf(v, sectionOf(v, bays, at)));
  const last = make(bays.stationsMm.at(-1) ?? NaN);
  // The shallowest has the least room: what stops it is enough to tell.
  if (last.part === undefined) return { findings: isWedge ? last.findings.map((f) => ofBaffle(f, bays.count)) : last.findings };
  const made = isWedge ? [...bays.stationsMm.slice(0, -1).map(make), last] : [last];
  const findings = made.flatMap((m, i) => (isWedge ? m.findings.map((f) => ofBaffle(f, i + 1)) : m.findings));
  const pieces = made.flatMap((m, i): Piece[] => (m.part === undefined ? [] : [pieceOf(m.part, isWedge ? i + 1 : undefined, bays.count)]));
  return pieces.length < made.length ? { findings } : { pieces, findings, report: reportOf(v, bays, made) };
}

const pieceOf = (part: Piece['part'], number: number | undefined, count: number): Piece =>
  number === undefined ? { id: 'plate', part, quantity: count } : { id: `plate-${number}`, part };

const ofBaffle = (finding: Finding, number: number): Finding => ({ ...finding, message: `Baffle ${number} from the deep end: ${finding.message}` });

/** How much shallower the tank is at its other end. */
const fallMm = (v: BaffleSet): number => (v.heightShallow === undefined ? 0 : v.height - v.heightShallow);

/** The section at a distance from the deep end. The floor is one plane. */
function sectionAt(v: BaffleSet, fromDeepMm: number): BaffleSection {
  const length = v.tankLength ?? 0;
  const [slope, lost] = fallMm(v) === 0 ? [0, 0] : [fallMm(v) / length, (fallMm(v) * fromDeepMm) / length];
  return {
    widthMm: v.width,
    leftDepthMm: v.height - lost,
    rightDepthMm: (v.heightRight ?? v.height) - lost,
    floorRadiusMm: v.wallRadius,
    roofRadiusMm: v.roofRadius ?? v.wallRadius,
    floorSlopeDeg: (Math.atan(slope) * 180) / Math.PI,
  };
}

const askOf = (v: BaffleSet, section: BaffleSection): BaffleAsk => ({
  section,
  flanges: BAFFLE_SIDES.filter((side) => ({ floor: v.flangeFloor, right: v.flangeRight, roof: v.flangeRoof, left: v.flangeLeft })[side]),
  ...wordsOf(v),
  swage: { run: v.swage, widthMm: v.swageWidth },
  holes: v.holesPanel,
});

function impossibleTank(v: BaffleSet): Finding[] {
  if (v.heightShallow === undefined) return [];
  if (v.tankLength === undefined) return [stop('tank-length-missing', 'How deep a baffle of a tank with a shallow end is depends on where it stands: give tankLength.')];
  if (v.heightShallow > v.height) return [stop('shallow-end-deeper', `heightShallow ${figure(v.heightShallow)} is more than height ${figure(v.height)}, which is the deep end: give at most ${figure(v.height)}.`)];
  const right = (v.heightRight ?? v.height) - fallMm(v);
  return right > 0 ? [] : [stop('floor-meets-roof', `At the shallow end the floor meets the roof on the right: give heightShallow more than ${atLeast(v.height - (v.heightRight ?? v.height))}.`)];
}

const notNeeded = (v: BaffleSet, lengthMm: number): Finding =>
  warn('no-baffle-needed', `A tank of ${figure(lengthMm)} is a single bay no longer than longestBay ${figure(v.longestBay)} and needs no baffle: this is one in its middle.`);

/** More bays than this in one tank are a slip. */
const MOST_BAFFLES = 20;

function impossibleBays(v: BaffleSet, lengthMm: number, { count, bayMm }: Bays): Finding[] {
  if (count > MOST_BAFFLES) return [stop('too-many-baffles', `longestBay ${figure(v.longestBay)} takes ${count} baffles: give ${atLeast((lengthMm - MOST_BAFFLES * v.thicknessMm) / (MOST_BAFFLES + 1))} or more for ${MOST_BAFFLES}.`)];
  const room = v.flange + v.clearance;
  return bayMm < room ? [stop('bay-too-short', `A bay of ${figure(bayMm)} is shorter than a flange: give a longer longestBay, or flange ${atMost(Math.max(0, bayMm - v.clearance))} or less.`)] : [];
}

const figuresOf = (f: BaffleFigures): ReportFigure[] => [
  { name: 'section of the tank', value: f.sectionMm2, unit: 'mm2' },
  { name: 'flow holes', value: f.flowHoles, unit: '' },
  { name: 'open area', value: f.openMm2, unit: 'mm2', about: 'Flow holes, corner cuts and holes at given places; not the clearance all round.' },
  { name: 'open share', value: f.openPercent, unit: '%', about: `Of the section. ISO 21487 (fuel tanks of small craft, after a summary) allows ${MOST_OPEN_PERCENT} %.` },
  { name: 'largest open area', value: (f.sectionMm2 * MOST_OPEN_PERCENT) / 100, unit: 'mm2', about: `${MOST_OPEN_PERCENT} % of the section.` },
];

function reportOf(v: BaffleSet, bays: Bays, made: readonly MadeBaffle[]): Report {
  const litres = bayLitres(bays, (at) => sectionAreaMm2(sectionAt(v, at)));
  const starts = bayStartsMm(bays);
  const inBays: ReportTable = {
    title: 'Bays, from the deep end',
    columns: [{ name: 'bay', unit: '' }, { name: 'begins', unit: 'mm' }, { name: 'length', unit: 'mm' }, { name: 'volume', unit: 'l' }],
    rows: litres.map((volume, i) => [i + 1, starts[i] ?? 0, bays.bayMm, volume]),
  };
  const stand: ReportTable = {
    title: 'Baffles, from the deep end',
    columns: [{ name: 'baffle', unit: '' }, { name: 'near face', unit: 'mm' }, { name: 'depth left', unit: 'mm' }, { name: 'depth right', unit: 'mm' }, { name: 'open share', unit: '%' }],
    rows: bays.stationsMm.map((at, i) => {
      const { leftDepthMm, rightDepthMm } = sectionOf(v, bays, at);
      return [i + 1, at, leftDepthMm, rightDepthMm, (made[i] ?? made[0])?.figures.openPercent ?? 0];
    }),
  };
  const tank: ReportFigure[] = [
    { name: 'baffles', value: bays.count, unit: '', about: 'The fewest that leave no bay longer than longestBay.' },
    { name: 'bay length', value: bays.bayMm, unit: 'mm', about: 'Between the faces of neighbouring baffles; all bays are alike.' },
    { name: 'volume of all bays', value: litres.reduce((sum, l) => sum + l, 0), unit: 'l', about: 'Inside, brim full; the baffles are taken off, their flanges are not.' },
  ];
  // Where they differ, the table of the baffles has the shares.
  const [first] = made;
  return { figures: made.length > 1 || first === undefined ? tank : [...tank, ...figuresOf(first.figures)], tables: [stand, inBays] };
}
