import {
  advise,
  figure,
  forOne,
  isOver,
  isUnder,
  orInstead,
  orLess,
  orMore,
  orTry,
  refuse,
  without,
} from '../../src/template.ts';
import type {
  Built,
  Finding,
  Piece,
  Report,
  ReportFigure,
  ReportTable,
} from '../../src/template.ts';
import { baffle, type BaffleFigures, type MadeBaffle, MOST_OPEN_PERCENT } from './build.ts';
import { wordsOf } from './ask.ts';
import { MOST_BAFFLES, shortBays, tooManyBaffles } from './bay-limits.ts';
import { bayLitres, type Bays, baySpacing, bayStartsMm, equalBays } from './bays.ts';
import type { BaffleAsk, SectionNames } from './plate.ts';
import { BAFFLE_SIDES, type BaffleSection, sectionAreaMm2 } from './section.ts';
import type { BaffleSet } from './inputs.ts';

/** One baffle, or all those of a tank of known length, with its bays. */
export function baffleSet(v: BaffleSet): Built {
  const impossible = impossibleTank(v);
  if (impossible.length > 0) return { findings: impossible };
  if (v.tankLength === undefined) {
    const { part, findings, figures } = baffle(v, askOf(v, sectionAt(v, 0)));
    return part === undefined
      ? { findings }
      : { part, findings, report: { figures: figuresOf(figures) } };
  }
  const needed = baySpacing(v.tankLength, v.longestBay, v.thicknessMm);
  // A user who asks for a baffle gets one, with a note that the tank could do without.
  const bays = needed.count > 0 ? needed : equalBays(v.tankLength, 1, v.thicknessMm);
  const findings = impossibleBays(v, v.tankLength, bays);
  if (findings.length > 0) return { findings };
  const built = inTank(v, bays);
  return needed.count > 0
    ? built
    : { ...built, findings: [notNeeded(v, v.tankLength), ...(built.findings ?? [])] };
}

/** A baffle is measured at its face away from the deep end, where the tank is shallower. */
const sectionOf = (v: BaffleSet, bays: Bays, station: number): BaffleSection =>
  sectionAt(v, station + bays.thicknessMm);

function inTank(v: BaffleSet, bays: Bays): Built {
  // All baffles are alike in a tank of one depth.
  const isWedge = fallMm(v) > 0;
  const make = (at: number): MadeBaffle => baffle(v, askOf(v, sectionOf(v, bays, at)));
  const last = make(bays.stationsMm.at(-1) ?? NaN);
  // The shallowest baffle has the least room, so its stop is enough to tell.
  if (last.part === undefined)
    return {
      findings: isWedge ? last.findings.map((f) => ofBaffle(f, bays.count)) : last.findings,
    };
  const made = isWedge ? [...bays.stationsMm.slice(0, -1).map(make), last] : [last];
  const findings = made.flatMap((m, i) =>
    isWedge ? m.findings.map((f) => ofBaffle(f, i + 1)) : m.findings,
  );
  const pieces = made.flatMap((m, i): Piece[] =>
    m.part === undefined ? [] : [pieceOf(m.part, isWedge ? i + 1 : undefined, bays.count)],
  );
  return pieces.length < made.length
    ? { findings }
    : { pieces, findings, report: reportOf(v, bays, made) };
}

const pieceOf = (part: Piece['part'], number: number | undefined, count: number): Piece =>
  number === undefined ? { id: 'plate', part, quantity: count } : { id: `plate-${number}`, part };

const ofBaffle = (finding: Finding, number: number): Finding =>
  forOne(finding, `Baffle ${number} from the deep end`);

/** How much shallower the tank is at its other end. */
const fallMm = (v: BaffleSet): number =>
  v.heightShallow === undefined ? 0 : v.height - v.heightShallow;

/** The section at a distance from the deep end. The floor is one plane. */
function sectionAt(v: BaffleSet, fromDeepMm: number): BaffleSection {
  const length = v.tankLength ?? 0;
  const [slope, lost] =
    fallMm(v) === 0 ? [0, 0] : [fallMm(v) / length, (fallMm(v) * fromDeepMm) / length];
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
  named: namesOf(v),
  flanges: BAFFLE_SIDES.filter(
    (side) =>
      ({ floor: v.flangeFloor, right: v.flangeRight, roof: v.flangeRoof, left: v.flangeLeft })[
        side
      ],
  ),
  ...wordsOf(v),
  swage: { run: v.swage, widthMm: v.swageWidth },
  holes: v.holesPanel,
});

function namesOf(v: BaffleSet): SectionNames {
  const left = { input: 'height', given: v.height };
  const floorRadius = { input: 'wallRadius', given: v.wallRadius };
  return {
    width: { input: 'width', given: v.width },
    left,
    right: v.heightRight === undefined ? left : { input: 'heightRight', given: v.heightRight },
    floorRadius,
    roofRadius:
      v.roofRadius === undefined ? floorRadius : { input: 'roofRadius', given: v.roofRadius },
    others: v.heightShallow === undefined ? [] : ['heightShallow', 'longestBay'],
  };
}

function impossibleTank(v: BaffleSet): Finding[] {
  if (v.heightShallow === undefined) return [];
  const shallow = `heightShallow ${figure(v.heightShallow)}`;
  if (v.tankLength === undefined)
    return [
      refuse(
        'tank-length-missing',
        ['heightShallow', 'tankLength'],
        `How deep a baffle of a tank with ${shallow} is depends on where it stands`,
        [without('heightShallow')],
        'give tankLength',
      ),
    ];
  if (isOver(v.heightShallow, v.height))
    return [
      refuse(
        'shallow-end-deeper',
        ['heightShallow', 'height'],
        `${shallow} is more than height ${figure(v.height)}, which is the deep end`,
        [orLess('heightShallow', v.height), orMore('height', v.heightShallow)],
      ),
    ];
  const right = (v.heightRight ?? v.height) - fallMm(v);
  if (right > 0) return [];
  const given = `heightRight ${figure(v.heightRight ?? v.height)}`;
  return [
    orTry(
      orInstead(
        refuse(
          'floor-meets-roof',
          ['heightShallow', 'heightRight', 'height'],
          `With ${shallow} at the left, ${fallMm(v) > 0 ? `less than height ${figure(v.height)} by ${figure(fallMm(v))} mm, ` : ''}the floor meets the roof at the right, where ${given} is left`,
          [],
        ),
        'give heightShallow nearer to height, or more heightRight',
      ),
      'heightShallow',
      'heightRight',
    ),
  ];
}

const notNeeded = (v: BaffleSet, lengthMm: number): Finding =>
  advise(
    'no-baffle-needed',
    ['tankLength', 'longestBay'],
    `tankLength ${figure(lengthMm)} is a single bay no longer than longestBay ${figure(v.longestBay)} and needs no baffle, so this is one in its middle`,
    [],
  );

function impossibleBays(v: BaffleSet, lengthMm: number, { count, bayMm }: Bays): Finding[] {
  if (count > MOST_BAFFLES) return [tooManyBaffles('tankLength', v, lengthMm, count, MOST_BAFFLES)];
  return isUnder(bayMm, v.flange + v.clearance) ? [shortBays(v, bayMm)] : [];
}

const figuresOf = (f: BaffleFigures): ReportFigure[] => [
  { name: 'section of the tank', value: f.sectionMm2, unit: 'mm2' },
  { name: 'flow holes', value: f.flowHoles, unit: '' },
  {
    name: 'open area',
    value: f.openMm2,
    unit: 'mm2',
    about: 'Flow holes, corner cuts and holes at given places; not the clearance all round.',
  },
  {
    name: 'open share',
    value: f.openPercent,
    unit: '%',
    about: `Share of the section. ISO 21487 (fuel tanks of small craft, after a summary) allows ${MOST_OPEN_PERCENT} %.`,
  },
  {
    name: 'largest open area',
    value: (f.sectionMm2 * MOST_OPEN_PERCENT) / 100,
    unit: 'mm2',
    about: `${MOST_OPEN_PERCENT} % of the section.`,
  },
];

function reportOf(v: BaffleSet, bays: Bays, made: readonly MadeBaffle[]): Report {
  const litres = bayLitres(bays, (at) => sectionAreaMm2(sectionAt(v, at)));
  const starts = bayStartsMm(bays);
  const inBays: ReportTable = {
    title: 'Bays, from the deep end',
    columns: [
      { name: 'bay', unit: '' },
      { name: 'begins', unit: 'mm' },
      { name: 'length', unit: 'mm' },
      { name: 'volume', unit: 'l' },
    ],
    rows: litres.map((volume, i) => [i + 1, starts[i] ?? 0, bays.bayMm, volume]),
  };
  const stand: ReportTable = {
    title: 'Baffles, from the deep end',
    columns: [
      { name: 'baffle', unit: '' },
      { name: 'near face', unit: 'mm' },
      { name: 'depth left', unit: 'mm' },
      { name: 'depth right', unit: 'mm' },
      { name: 'open share', unit: '%' },
    ],
    rows: bays.stationsMm.map((at, i) => {
      const { leftDepthMm, rightDepthMm } = sectionOf(v, bays, at);
      return [i + 1, at, leftDepthMm, rightDepthMm, (made[i] ?? made[0])?.figures.openPercent ?? 0];
    }),
  };
  const tank: ReportFigure[] = [
    {
      name: 'baffles',
      value: bays.count,
      unit: '',
      about: 'The fewest that leave no bay longer than longestBay.',
    },
    {
      name: 'bay length',
      value: bays.bayMm,
      unit: 'mm',
      about: 'Distance between the faces of neighbouring baffles; all bays are alike.',
    },
    {
      name: 'volume of all bays',
      value: litres.reduce((sum, l) => sum + l, 0),
      unit: 'l',
      about: 'Inside, brim full; the baffles are taken off, their flanges are not.',
    },
  ];
  // Where the shares differ, the table of the baffles has them.
  const [first] = made;
  return {
    figures: made.length > 1 || first === undefined ? tank : [...tank, ...figuresOf(first.figures)],
    tables: [stand, inBays],
  };
}
