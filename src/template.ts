/**
 * All that a part family may import: a template module under templates/, or one of a user's own.
 */
export { defineTemplate } from './input/template.ts';
export type { Built, Example, Piece, Template, TemplateValues } from './input/template.ts';
export type { CommonValues } from './input/common.ts';
export * as fields from './input/fields.ts';
export type { HoleShape, HoleSpec } from './input/holes.ts';
export { cutouts } from './input/cutouts.ts';
export { foldLines } from './input/fold-lines.ts';
export { holeSize, namedHoles } from './input/hole-size.ts';
export { optionalOutline } from './input/optional-outline.ts';
export { outline } from './input/outline.ts';
export { optionalLine, optionalPlace, optionalSide } from './input/places.ts';
export { optionalPoints, points } from './input/points.ts';
export type { GivenPoints } from './input/points.ts';
export { placeHole, placeHoles } from './input/place-hole.ts';
export type { HoleFrame } from './input/place-hole.ts';
export { setbackMm } from './bending/setback.ts';
export { atLeast, atMost, figure } from './figures.ts';
export { assemble } from './families/assemble.ts';
export { roundFreeCorners } from './families/free-corners.ts';
export { withJoggles } from './families/joggle.ts';
export { middleFold } from './families/middle-fold.ts';
export { trayPart } from './families/tray.ts';
export { splitPlate } from './families/split-plate.ts';
export { stripPart } from './families/strip.ts';
export type { StripFold, StripPanel } from './families/strip.ts';
export { strutBrace } from './families/strut-brace.ts';
export type { CautionId } from './data/cautions.ts';
export { roundCorners } from './geometry/fillet.ts';
export { polygon, rectangle } from './geometry/loop.ts';
export type { Loop, Vertex } from './geometry/loop.ts';
export { circle, obround } from './geometry/shapes.ts';
export type { Vec2 } from './geometry/vec2.ts';
export { note, stop, warn } from './model/finding.ts';
export type { Finding } from './model/finding.ts';
export type { Report, ReportFigure, ReportTable } from './model/report.ts';
export type { Corner, Cutout, Direction, Fold, FoldSide, Panel, Part, SlotRow } from './model/part.ts';
