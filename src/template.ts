/**
 * All that a part family may import: a template module under templates/, or one of a user's own.
 */
export { defineTemplate } from './forms/template.ts';
export type {
  Built,
  Example,
  GivenCutout,
  GivenFold,
  GivenPanel,
  GivenPart,
  GivenVertex,
  Piece,
  Template,
  TemplateDraft,
  TemplateValues,
} from './forms/template.ts';
export type { CommonValues } from './forms/common.ts';
export * as fields from './forms/fields.ts';
export { between, FOLD_AXES, FROM_FOLD, FROM_LEFT, XY_AXES } from './forms/hole-axes.ts';
export type { HoleAxes, HoleAxis } from './forms/hole-axes.ts';
export type { HoleShape, SizedHole } from './forms/hole-shape.ts';
export type { HoleSpec } from './forms/holes.ts';
export { optionalConsumption } from './forms/consumption.ts';
export { cutouts } from './forms/cutouts.ts';
export { foldLines } from './forms/fold-lines.ts';
export { asBoltHole, boltHoleSize, holeSize, meeting, namedHoles } from './forms/hole-size.ts';
export { optionalOutline, outline } from './forms/outline.ts';
export { optionalLine, optionalPlace, optionalSide } from './forms/places.ts';
export { optionalPoints, points } from './forms/points.ts';
export type { GivenPoints } from './forms/points.ts';
export { placeHole, placeHoles } from './forms/place-hole.ts';
export type { HoleFrame } from './forms/place-hole.ts';
export { setbackMm } from './bending/setback.ts';
export { angleWish, cornerOf, diameterWish, edge, faceOf, holeWishes, wish } from './kit/wishes.ts';
export type { Feature, Wish } from './model/wish.ts';
export { atLeast, atMost, figure, isOver, isUnder } from './text/figures.ts';
export { assemble } from './kit/assemble.ts';
export { cornerInput, cornerMm, roundFreeCorners } from './kit/free-corners.ts';
export { middleFold } from './kit/middle-fold.ts';
export { stripPart } from './kit/strip.ts';
export type { StripFold, StripPanel } from './kit/strip.ts';
export type { CautionId } from './data/cautions.ts';
export { roundCorners } from './geometry/fillet.ts';
export { polygon, rectangle } from './geometry/loop.ts';
export type { Loop, Vertex } from './geometry/loop.ts';
export { circle, obround } from './geometry/shapes.ts';
export type { Vec2 } from './geometry/vec2.ts';
export { advise, note, orInstead, orTry, refuse, stop, warn } from './model/finding.ts';
export type { Finding } from './model/finding.ts';
export { isPossible, just, orLess, orMore, within, without } from './model/mend.ts';
export type { Mend } from './model/mend.ts';
export type { Report, ReportFigure, ReportTable } from './contract/report.ts';
export type {
  Corner,
  Cutout,
  Direction,
  Fold,
  FoldSide,
  Panel,
  Part,
  SlotRow,
} from './model/part.ts';
export { bendFigures } from './bending/bend.ts';
export { leastRadiusMm } from './bending/least-radius.ts';
export { ruleFindings } from './bending/rule-findings.ts';
export { ruleProblem } from './bending/rule.ts';
export { cautionText } from './data/cautions.ts';
export { flatten } from './flatten/flatten.ts';
export type { Consumption } from './forms/consumption.ts';
export type { FoldLine, GivenFoldLine } from './forms/fold-lines.ts';
export { reachOf, widthOf } from './forms/hole-shape.ts';
export type { NamedHole } from './forms/hole-size.ts';
export { outlineLoop } from './forms/outline.ts';
export type { GivenOutline } from './forms/outline.ts';
export { measuredFromNear } from './forms/place-hole.ts';
export type { Place, SideChoice } from './forms/places.ts';
export { pointFindings, residualFigures } from './forms/survey-report.ts';
export { arcOf } from './geometry/arc.ts';
export { clip } from './geometry/clip.ts';
export { cosDeg, sinDeg } from './geometry/degrees.ts';
export { loopExtents, pointExtents } from './geometry/extents.ts';
export { pointGap } from './geometry/gap.ts';
export { hullOfCircles } from './geometry/hull-of-circles.ts';
export type { Spot } from './geometry/hull-of-circles.ts';
export { isInside } from './geometry/inside.ts';
export { vertexAt } from './geometry/loop.ts';
export { signedArea } from './geometry/measure.ts';
export {
  compose,
  invert,
  motionBetween,
  moveLoop,
  movePoint,
  shift,
  STILL,
} from './geometry/motion2.ts';
export type { Motion2 } from './geometry/motion2.ts';
export { levelCrossings, pieceOf, piecesOf, pointOn } from './geometry/piece.ts';
export { subtract } from './geometry/subtract.ts';
export { tidyLoop } from './geometry/tidy-loop.ts';
export { NOISE_MM } from './geometry/tolerance.ts';
export {
  add,
  along,
  cross,
  distance,
  dot,
  leftOf,
  middle,
  scale,
  sub,
  unit,
} from './geometry/vec2.ts';
export { cross3, dot3, length3, scale3, sub3, unit3 } from './geometry/vec3.ts';
export type { Vec3 } from './geometry/vec3.ts';
export {
  equalAreaDiameterMm,
  equalFrictionDiameterMm,
  hydraulicDiameterMm,
  ORDINARY_TAPER_DEG,
  rectangleAreaMm2,
  roundAreaMm2,
  taperLengthMm,
} from './kit/duct-air.ts';
export type { ClearRectangle } from './kit/duct-air.ts';
export { withJoggles } from './kit/joggle.ts';
export type { NamedFoldLine, WrittenFoldLine } from './kit/joggle.ts';
export { spacingWishes } from './kit/point-wishes.ts';
export type { AskedPlace } from './kit/point-wishes.ts';
export { splitPlate } from './kit/split-plate.ts';
export type { SplitPlate } from './kit/split-plate.ts';
export { impossibleTeardrop } from './kit/teardrop.ts';
export type { BendRule } from './model/bend-rule.ts';
export { forOne, hasStop } from './model/finding.ts';
export type { Try } from './model/finding.ts';
export { mirrorPart } from './model/mirror.ts';
export { reroot } from './model/reroot.ts';
export type { Piece as OutlinePiece } from './geometry/piece.ts';
