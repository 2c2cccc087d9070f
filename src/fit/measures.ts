import { type GeneralClass, generalTolerance } from '../data/tolerances/general.ts';
import { dot, leftOf, sub, type Vec2 } from '../geometry/vec2.ts';
import type { AskedAngle, AskedMeasure, OfHoles } from '../contract/asked.ts';
import { type FoldedFile, regionOf } from '../measure/folded-file.ts';
import { foundDeg, foundMm } from '../measure/found.ts';
import { chanceWithin } from '../statistics/normal.ts';
import { NORMAL95 } from '../statistics/student.ts';
import { foldWithErrors, type BlankToFold } from './fold-with-errors.ts';
import { type CauseName, expectedPart, type FoldCause } from './causes.ts';
import { cutMoves } from './cut-errors.ts';
import type { Doubts } from './doubts.ts';
import type { InputDoubt } from './inputs.ts';
import type { CauseShare, FitMeasure, ToleranceFit } from '../contract/fit.ts';

/** The effect of one cause on one measure, at the limit of the cause. */
interface Effect {
  readonly cause: CauseName;
  readonly by: number;
}

export interface Question {
  readonly folding: BlankToFold;
  readonly doubts: Doubts;
  readonly causes: readonly FoldCause[];
  readonly inputs: readonly InputDoubt[];
  readonly grade: GeneralClass | undefined;
}

/** All lengths and angles of a part, with how far each is likely to be off. */
export const fitMeasures = (question: Question): FitMeasure[] => {
  const {
    folding: { asked },
    doubts,
    folding,
  } = question;
  const [made, expected] = [foldWithErrors(folding, {}), expectedPart(folding, doubts)];
  const lengths = asked.measures.flatMap((m): FitMeasure[] => {
    const [asMade, comesTo] = [foundMm(made, m), foundMm(expected, atHeight(m, made, expected))];
    if (isOfTheFile(m) || asMade === undefined || comesTo === undefined) return [];
    const effects = [
      ...foldEffects(question, made, m),
      ...cutEffects(question, made, m),
      ...measuring(question, m.name),
    ];
    // A gap comes out wider than asked for where the flanges have to pass each other in the flat.
    const goal = m.atLeast === true ? Math.max(m.askedMm, asMade) : m.askedMm;
    return [
      summed(m, 'mm', goal, goal + comesTo - asMade, effects, toleranceOf(question.grade, m)),
    ];
  });
  const angles = asked.angles.flatMap((a): FitMeasure[] => {
    if (foundDeg(made, a) === undefined) return [];
    const effects = [
      { cause: 'the bend angle', by: doubts.angleDeg } as const,
      ...measuring(question, a.name),
    ];
    return [
      summed(a, 'deg', a.askedDeg, a.askedDeg, effects, angleTolerance(question.grade, made, a)),
    ];
  });
  return [...lengths, ...angles];
};

/** Whether a measure asks if the file is still the one that was made. */
const isOfTheFile = ({ between: [first] }: AskedMeasure): boolean =>
  first === undefined || first.kind === 'cut' || first.kind === 'line';

/**
 * The measure with its height over the lower face scaled to the thickness, so that a height at the
 * upper face remains one on thicker sheet.
 */
const atHeight = (m: AskedMeasure, from: FoldedFile, to: FoldedFile): AskedMeasure =>
  m.heightMm === undefined
    ? m
    : { ...m, heightMm: (m.heightMm * to.asked.thicknessMm) / from.asked.thicknessMm };

const foldEffects = ({ causes }: Question, made: FoldedFile, m: AskedMeasure): Effect[] => {
  const folds = foldsOf(made, m);
  if (folds.size === 0) return [];
  return causes
    .filter(({ fold }) => fold === undefined || folds.has(fold))
    .map(({ name, limit, step, more, less }): Effect => {
      const [up, down] = [more, less].map(
        (body) => foundMm(body, atHeight(m, made, body)) ?? NaN,
      ) as [number, number];
      return { cause: name, by: (limit * (up - down)) / (2 * step) };
    });
};

/**
 * The folds that a measure depends on: those it is measured to, and all those between two of its
 * panels.
 */
const foldsOf = (
  body: FoldedFile,
  { between, heightMm, atLeast }: AskedMeasure,
): ReadonlySet<string> => {
  const folds = new Set(between.flatMap((p) => (p.kind === 'mould' ? [p.fold] : [])));
  if (heightMm === undefined && atLeast === undefined) return folds;
  const [a, b] = between.map((p) => ('panel' in p ? regionOf(body, p.panel) : undefined));
  if (a === undefined || b === undefined) return folds;
  const [toA, toB] = [a, b].map((region) => pathTo(body, region)) as [Set<string>, Set<string>];
  for (const id of toA) if (!toB.has(id)) folds.add(id);
  for (const id of toB) if (!toA.has(id)) folds.add(id);
  return folds;
};

/** The folds from the panel that stays in place to a region. */
export const pathTo = ({ folded: { hinges } }: FoldedFile, region: number): Set<string> => {
  const path = new Set<string>();
  for (
    let at = region, hinge = hinges.find((h) => h.child === at);
    hinge !== undefined;
    at = hinge.parent, hinge = hinges.find((h) => h.child === at)
  )
    path.add(hinge.id);
  return path;
};

const MEASURE_STEP_MM = 0.01;

const cutEffects = ({ doubts }: Question, made: FoldedFile, m: AskedMeasure): Effect[] => {
  const [first, second] = m.between;
  const limit = doubts.cutMm(m.askedMm);
  if (second === undefined)
    return [
      { cause: 'cutting', by: limit },
      { cause: 'the width of the cut', by: doubts.kerfMm * (first?.kind === 'radius' ? 0.5 : 1) },
    ];
  const { single, wider } = cutMoves(made, m);
  const slope = (move: (by: number) => FoldedFile): number =>
    ((foundMm(move(MEASURE_STEP_MM), m) ?? NaN) - (foundMm(move(-MEASURE_STEP_MM), m) ?? NaN)) /
    (2 * MEASURE_STEP_MM);
  return [
    ...single.map((move): Effect => ({ cause: 'cutting', by: (limit / Math.SQRT2) * slope(move) })),
    ...(wider === undefined
      ? []
      : [{ cause: 'the width of the cut' as const, by: doubts.kerfMm * slope(wider) }]),
  ];
};

const measuring = ({ inputs }: Question, name: string): Effect[] =>
  inputs.map(({ cause, limit, slopes }): Effect => ({
    cause,
    by: limit * (slopes.get(name) ?? 0),
  }));

const summed = (
  { name, holes, called }: OfHoles & { readonly name: string },
  unit: FitMeasure['unit'],
  asked: number,
  expected: number,
  all: readonly Effect[],
  allowed: Allowed | undefined,
): FitMeasure => {
  const effects = all.filter(({ by }) => Math.abs(by) > NO_SLOPE_MM);
  const likely = Math.hypot(...effects.map(({ by }) => by));
  return {
    name,
    ...(holes !== undefined && { holes }),
    ...(called !== undefined && { called }),
    unit,
    asked,
    expected: tidy(expected),
    likely: tidy(likely),
    worst: tidy(effects.reduce((sum, { by }) => sum + Math.abs(by), 0)),
    causes: sharesOf(effects, likely),
    tolerance:
      allowed === undefined
        ? null
        : {
            ...allowed,
            chance: tidy(chanceWithin(allowed.plusMinus, expected - asked, likely / NORMAL95)),
          },
  };
};

/** A slope below this, mm, is only what rounding left. */
const NO_SLOPE_MM = 1e-6;

const tidy = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;

const sharesOf = (effects: readonly Effect[], likely: number): CauseShare[] => {
  const squares = new Map<string, number>();
  for (const { cause, by } of effects) squares.set(cause, (squares.get(cause) ?? 0) + by ** 2);
  return [...squares]
    .map(([cause, square]) => ({ cause, share: tidy(square / likely ** 2) }))
    .sort((a, b) => b.share - a.share);
};

type Allowed = Pick<ToleranceFit, 'grade' | 'plusMinus'>;

const toleranceOf = (
  grade: GeneralClass | undefined,
  { between: [first], askedMm, atLeast }: AskedMeasure,
): Allowed | undefined => {
  const plusMinus =
    grade === undefined || atLeast === true
      ? null
      : generalTolerance(first?.kind === 'radius' ? 'radius' : 'length', askedMm, grade);
  return grade === undefined || plusMinus === null ? undefined : { grade, plusMinus };
};

/** The tolerance of an angle, by the shorter of the two panels, square to the fold. */
const angleTolerance = (
  grade: GeneralClass | undefined,
  body: FoldedFile,
  { fold }: AskedAngle,
): Allowed | undefined => {
  const hinge = body.folded.hinges.find((h) => h.id === fold);
  if (grade === undefined || hinge === undefined) return undefined;
  const across = leftOf(hinge.dir);
  const reach = (region: number): number =>
    Math.max(
      0,
      ...(body.regions[region] ?? []).map((v) =>
        Math.abs(dot(sub([v.x, v.y] as Vec2, hinge.at), across)),
      ),
    );
  const plusMinus = generalTolerance(
    'angle',
    Math.min(reach(hinge.parent), reach(hinge.child)),
    grade,
  );
  return plusMinus === null ? undefined : { grade, plusMinus };
};
