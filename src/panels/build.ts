import type { CommonValues } from '../forms/common.ts';
import type { InputProblem } from '../forms/problem.ts';
import type { Built } from '../forms/template.ts';
import type { Finding } from '../model/finding.ts';
import type { Part } from '../model/part.ts';
import { AT_HOME } from '../geometry/pose.ts';
import { bodyOf } from './body.ts';
import { buildPiece } from './build-piece.ts';
import { builtPieces } from './build-pieces.ts';
import { Figures } from './figures.ts';
import { BASE_ALLOWED } from './fields.ts';
import type { GivenBaseMap, GivenCornerMap, GivenFlangeMap } from './given.ts';
import type { GivenTabMap, PieceMap } from './given-pieces.ts';
import { namesOf } from './names.ts';
import type { GivenPiece } from './piece.ts';
import { solvePiece } from './solve.ts';
import { type TabbedPiece, withTabs } from './tabs.ts';

/** A part by its panels, lines taken apart: one blank, or pieces that are blanks of their own. */
export interface Panels {
  readonly base?: GivenBaseMap | undefined;
  readonly flanges: readonly GivenFlangeMap[];
  readonly corners: readonly GivenCornerMap[];
  readonly order?: readonly string[] | undefined;
  readonly pieces?: readonly PieceMap[] | undefined;
  readonly tabs?: readonly GivenTabMap[] | undefined;
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
  const built =
    (panels.pieces ?? []).length > 0
      ? builtPieces(panels, figures, values)
      : builtBlank(panels, figures, values);
  return { problems: figures.problems, built };
}

/** A part of one blank, which may be given as a piece without a name. */
const builtBlank = (panels: Panels, figures: Figures, values: CommonValues): Built<Part> => {
  const { base, tabs = [] } = panels;
  if (base === undefined) {
    figures.problem('base', undefined, BASE_ALLOWED, 'give it, or pieces with a base each');
    return { findings: [] };
  }
  const made = builtPiece({ ...panels, base, at: '' }, figures, values);
  if (made.part === undefined || tabs.length === 0) return made;
  const body = bodyOf(made.part);
  if (body === undefined) return made;
  const blank: TabbedPiece = {
    name: '',
    part: made.part,
    body,
    place: { space: '', pose: AT_HOME },
    insetMm: undefined,
  };
  const tabbed = withTabs([blank], [{ tabs, at: '', own: '' }], figures, values);
  const [part = made.part] = tabbed.parts;
  return { part, findings: [...made.findings, ...tabbed.findings] };
};

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
