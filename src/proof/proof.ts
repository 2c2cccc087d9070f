import { misses } from '../model/measured.ts';
import { figure } from '../text/figures.ts';
import { isSameLoop } from '../geometry/same-loop.ts';
import { PROOF_MM } from '../geometry/tolerance.ts';
import { calledOf } from '../model/hole-names.ts';
import { type Finding, stop } from '../model/finding.ts';
import { accidents, type Losses, type Strays } from './accidents.ts';
import type { Asked } from '../contract/asked.ts';
import type { Contour } from '../measure/contours.ts';
import { foldRegions } from '../measure/folded.ts';
import type { FoldedFile } from '../measure/folded-file.ts';
import { foundDeg, foundMm } from '../measure/found.ts';
import { pairedFolds, pairedHoles } from './pairing.ts';
import { readFile } from './reading.ts';
import { type Chord, splitAtFolds } from '../measure/regions.ts';
import type { FoldLine, FileLines } from './file-lines.ts';
import type { FoundAngle, FoundMeasure, Proof } from '../contract/proof.ts';
import { type Alignment, AS_MADE, placed } from '../measure/placing.ts';

export type Proved =
  { readonly ok: true; readonly proof: Proof } | { readonly ok: false; readonly reason: string };

/**
 * Reads a DXF back from its own text, cuts its outline at the fold lines, folds it up and measures
 * it. A text that is no DXF gives a reason; anything wrong with the blank in it gives findings.
 */
export const proveDxf = (text: string, asked: Asked): Proved => {
  const read = readFile(text, asked);
  if (!read.ok) return read;
  const { sheet, unit, blank } = read.reading;
  if (blank === undefined)
    return {
      ok: true,
      proof: unmeasured(asked, [
        ...accidents(sheet, unit, AS_MADE, NO_LOSSES),
        stop('contour-lost', 'There is no closed contour on the layer OUTLINE.'),
      ]),
    };
  const { outline, to } = blank;
  const holes = pairedHoles(asked, to, sheet.holes);
  const folds = pairedFolds(asked.bends, to, sheet.folds);
  const found = accidents(sheet, unit, to, lossesOf(asked, sheet, outline, holes, folds));
  const cut = { holes, marks: sheet.marks };
  const body = bodyOf(asked, to, outline, cut, folds);
  if (!('severity' in body)) return { ok: true, proof: measured(body, unit.times, found) };
  return {
    ok: true,
    proof: unfolded({ asked, to, outline, ...cut, ...NOT_FOLDED }, unit.times, [...found, body]),
  };
};

const NONE: Strays = { doubled: 0, others: 0 };
const NO_LOSSES: Losses = {
  lostHoles: [],
  strayOutlines: NONE,
  strayHoles: NONE,
  lostFolds: [],
  strayFolds: 0,
  turnedFolds: [],
  missesFolds: true,
};

const lossesOf = (
  asked: Asked,
  sheet: FileLines,
  outline: Contour,
  holes: readonly (Contour | undefined)[],
  folds: readonly (FoldLine | undefined)[],
): Losses => {
  const kept = [outline, ...holes.filter((h) => h !== undefined)];
  const isDoubled = (c: Contour): boolean =>
    kept.some((k) => k !== c && isSameLoop(c.loop, k.loop, PROOF_MM));
  const strays = (all: readonly Contour[]): Strays => {
    const others = all.filter((c) => !kept.includes(c));
    const doubled = others.filter(isDoubled).length;
    return { doubled, others: others.length - doubled };
  };
  return {
    lostHoles: holes.flatMap((h, of) => (h === undefined ? [holeName(asked, of)] : [])),
    strayOutlines: strays(sheet.outlines),
    strayHoles: strays(sheet.holes),
    lostFolds: asked.bends.flatMap(({ id }, i) => (folds[i] === undefined ? [id] : [])),
    strayFolds: sheet.folds.length - folds.filter((f) => f !== undefined).length,
    turnedFolds: asked.bends.flatMap(({ id, direction }, i) =>
      folds[i] !== undefined && folds[i].direction !== direction ? [id] : [],
    ),
    missesFolds: sheet.folds.length > 0 || asked.file?.foldLines === true,
  };
};

/** A hole is named by the measure that is taken of it. */
const holeName = ({ measures }: Asked, of: number): string => {
  const own = measures.find(
    ({ between: [place, other] }) =>
      other === undefined &&
      place !== undefined &&
      place.kind !== 'cut' &&
      'of' in place &&
      place.of === of,
  );
  return own === undefined
    ? `hole ${of + 1}`
    : calledOf(own).replace(/^(?:diameter|length|width) of /, '');
};

const bodyOf = (
  asked: Asked,
  to: Alignment,
  outline: Contour,
  { holes, marks }: Pick<FoldedFile, 'holes' | 'marks'>,
  folds: readonly (FoldLine | undefined)[],
): FoldedFile | Finding => {
  const chords = asked.bends.map(({ id, centreLine }, i): Chord => {
    const { from, to: end } = folds[i] ?? {
      from: placed(to, centreLine[0]),
      to: placed(to, centreLine[1]),
    };
    return { id, from, to: end };
  });
  const split = splitAtFolds(outline.loop, chords);
  if ('crossing' in split)
    return stop(
      'fold-lines-cross',
      `Fold ${split.crossing} crosses another fold line, or does not run from edge to edge: it cannot be folded so.`,
    );
  const bends = new Map(asked.bends.map((b) => [b.id, b]));
  const directions = new Map(asked.bends.map((b, i) => [b.id, folds[i]?.direction ?? b.direction]));
  return {
    asked,
    to,
    outline,
    holes,
    marks,
    regions: split.regions,
    folded: foldRegions(split, bends, (id) => directions.get(id) ?? 'up', asked),
  };
};

/**
 * The proof of a file that was folded up. `times` is how many times larger the file's stated unit
 * makes it than its figures were made.
 */
const measured = (body: FoldedFile, times: number, found: readonly Finding[]): Proof => {
  const lengthOf = (value: number | undefined): number | null =>
    tidy(value === undefined ? undefined : value * times);
  const measures = body.asked.measures.map((m): FoundMeasure => ({
    ...m,
    foundMm: lengthOf(foundMm(body, m)),
  }));
  const angles = body.asked.angles.map((a): FoundAngle => ({
    ...a,
    foundDeg: tidy(foundDeg(body, a)),
  }));
  return {
    worstMm: worstOf(measures),
    measures,
    angles,
    findings: [...found, ...verdict(measures, angles)],
  };
};

const NOT_FOLDED = { regions: [], folded: { poses: [], hinges: [] } };

/**
 * The proof of a blank that cannot be folded up. Only what lies in its plane is measured; the rest
 * is not listed one by one.
 */
const unfolded = (body: FoldedFile, times: number, found: readonly Finding[]): Proof => {
  const { worstMm, measures, angles } = measured(body, times, []);
  return {
    worstMm,
    measures,
    angles,
    findings: [
      ...found,
      ...verdict(
        measures.filter((m) => m.foundMm !== null),
        [],
      ),
    ],
  };
};

const unmeasured = ({ measures, angles }: Asked, findings: readonly Finding[]): Proof => ({
  worstMm: worstOf(measures.map((m) => ({ ...m, foundMm: null }))),
  measures: measures.map((m) => ({ ...m, foundMm: null })),
  angles: angles.map((a) => ({ ...a, foundDeg: null })),
  findings,
});

/** Rounds to a millionth of a millimetre, beyond which digits say nothing. */
const tidy = (value: number | undefined): number | null =>
  value === undefined ? null : Math.round(value * 1e6) / 1e6 + 0;

export const offBy = ({ askedMm, foundMm: found, atLeast }: FoundMeasure): number => {
  if (found === null) return askedMm;
  return atLeast === true && found > askedMm ? 0 : Math.abs(found - askedMm);
};

const worstOf = (measures: readonly FoundMeasure[]): number =>
  tidy(Math.max(0, ...measures.map(offBy))) ?? 0;

/**
 * An angle this far off, degrees, moves the end of a leg of 60 mm by as much as a file may be
 * wrong.
 */
const PROOF_DEG = 0.01;

export const isOff = (m: FoundMeasure): boolean => m.foundMm === null || offBy(m) > PROOF_MM;
export const isAngleOff = (a: FoundAngle): boolean =>
  a.foundDeg === null || Math.abs(a.foundDeg - a.askedDeg) > PROOF_DEG;

/** The measures that are off, worst first, in one finding. */
const verdict = (measures: readonly FoundMeasure[], angles: readonly FoundAngle[]): Finding[] => {
  const off = measures.filter(isOff).toSorted((a, b) => offBy(b) - offBy(a));
  const lines = [
    ...off.map((m) =>
      m.foundMm === null
        ? `${calledOf(m)} is not to be found (asked ${figure(m.askedMm)} mm)`
        : `${calledOf(m)} ${figure(m.foundMm, 3)} mm instead of ${figure(m.askedMm, 3)}`,
    ),
    ...angles
      .filter(isAngleOff)
      .map(
        (a) =>
          `${a.name} ${a.foundDeg === null ? 'is not to be found' : `${figure(a.foundDeg)} degrees instead of ${figure(a.askedDeg)}`}`,
      ),
  ];
  if (lines.length === 0) return [];
  const rest = lines.length > MOST_TOLD ? `; and ${lines.length - MOST_TOLD} more` : '';
  return [
    {
      ...stop(
        'proof-failed',
        `The file does not fold to what was asked: ${lines.slice(0, MOST_TOLD).join('; ')}${rest}.`,
      ),
      ...figuresOf(off, angles.filter(isAngleOff)),
    },
  ];
};

/**
 * The figures of the measure that is off most, or else of the first of the angles; a measure that
 * is lost has no figure.
 */
const figuresOf = (
  measures: readonly FoundMeasure[],
  angles: readonly FoundAngle[],
): Partial<Finding> => {
  const measure = measures.find(({ foundMm }) => foundMm !== null);
  const angle = angles.find(({ foundDeg }) => foundDeg !== null);
  const inputs = [...measures, ...angles].flatMap(({ input }) => input ?? []);
  return {
    inputs: [...new Set(inputs)],
    ...(measure?.foundMm !== undefined && measure.foundMm !== null
      ? misses(measure.foundMm, measure.askedMm, PROOF_MM)
      : angle?.foundDeg !== undefined && angle.foundDeg !== null
        ? misses(angle.foundDeg, angle.askedDeg, PROOF_DEG, 'deg')
        : {}),
  };
};

const MOST_TOLD = 6;
