import type { CommonValues } from '../forms/common.ts';
import type { InputProblem } from '../forms/problem.ts';
import type { Built } from '../forms/template.ts';
import type { Finding } from '../model/finding.ts';
import type { Part } from '../model/part.ts';
import { nearest } from '../text/nearest.ts';
import { buildPiece } from './build-piece.ts';
import { Figures } from './figures.ts';
import type { GivenBaseMap, GivenCornerMap, GivenFlangeMap } from './given.ts';
import { MOST_FLANGES } from './lines.ts';
import type { GivenPiece } from './piece.ts';
import { solvePiece } from './solve.ts';

/** A part by its panels, lines taken apart. */
export interface Panels {
  readonly base: GivenBaseMap;
  readonly flanges: readonly GivenFlangeMap[];
  readonly corners: readonly GivenCornerMap[];
  readonly order?: readonly string[] | undefined;
}

/** What came of a description: inputs that are wrong, or what was built of them. */
export interface BuiltPanels {
  readonly problems: readonly InputProblem[];
  readonly built: Built<Part>;
}

/**
 * Builds the part that a description is, on the sheet and with the bends that the common inputs say.
 * Problems are what is wrong with the inputs themselves; what they make that cannot be is findings.
 */
export function buildPanels(panels: Panels, values: CommonValues): BuiltPanels {
  const figures = sheetFigures(values);
  const made = builtPiece({ ...panels, at: '' }, figures, values);
  return {
    problems: figures.problems,
    built: { findings: made.findings, ...(made.part !== undefined && { part: made.part }) },
  };
}

/** The lengths of the sheet, which may be named as those of panels are. */
const sheetFigures = (values: CommonValues): Figures => {
  const figures = new Figures();
  figures.define('thickness', () => values.thicknessMm);
  figures.define('radius', () => values.insideRadiusMm);
  figures.define('cornerGap', () => values.cornerGapMm);
  return figures;
};

const builtPiece = (
  given: GivenPiece,
  figures: Figures,
  values: CommonValues,
): { readonly part?: Part; readonly findings: readonly Finding[] } => {
  const told = figures.problems.length;
  namesOf(given, figures);
  if (figures.problems.length > told) return { findings: [] };
  const piece = solvePiece({ figures, given, values });
  if (piece === undefined) return { findings: [] };
  const made = buildPiece(piece, figures, values);
  return figures.problems.length > told ? { findings: [] } : made;
};

/** So long a name still stands on a sheet. */
const LONGEST_NAME = 40;

/** Panels have names of their own, and there are no more of them than can be planned. */
function namesOf({ base, flanges, order, at }: GivenPiece, figures: Figures): void {
  if (flanges.length > MOST_FLANGES) {
    figures.problem(`${at}flanges`, `${flanges.length} flanges`, `at most ${MOST_FLANGES}`);
    return;
  }
  const ids = [base.name ?? 'base', ...flanges.map(({ name }) => name)];
  for (const [i, id] of ids.entries()) {
    const path = i === 0 ? `${at}base.name` : `${at}flanges[${i - 1}].name`;
    if (!/^\p{L}/u.test(id) || id.trim() !== id || id.length > LONGEST_NAME)
      figures.problem(path, id, `a name that begins with a letter, up to ${LONGEST_NAME} long`);
    else if (ids.indexOf(id) < i)
      figures.problem(path, id, 'a name of its own', `call it ${id} ${i + 1}`);
  }
  for (const [i, id] of (order ?? []).entries()) {
    if (ids.includes(id)) continue;
    const meant = nearest(id, ids);
    figures.problem(
      `${at}order[${i}]`,
      id,
      `one of the panels ${ids.join(', ')}`,
      meant === undefined ? undefined : `did you mean ${meant}?`,
    );
  }
}
