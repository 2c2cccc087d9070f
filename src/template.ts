/**
 * Everything that a part family may import, by subject, whether it is a folder of templates/ or a
 * module of a user's own. `templates/README.md` shows how the kit is used.
 */
import { MAKERS } from './model/finding.ts';

// A family: its draft, and what its `build` receives and gives.
export { defineTemplate, defineTubes } from './forms/template.ts';
export type {
  Template,
  TemplateDraft,
  TemplateValues,
  TubeValues,
  Example,
  Built,
  Piece,
  GivenPart,
  GivenPanel,
  GivenVertex,
  GivenCutout,
  GivenFold,
  GivenSide,
} from './forms/template.ts';
export type { CommonValues } from './forms/common.ts';

// Inputs: `fields` for lengths, angles, counts, choices, texts and holes; the others read notations
// of their own, and the types are what `build` receives from them.
export * as fields from './forms/fields.ts';
export { outline, optionalOutline, outlineLoop } from './forms/outline.ts';
export type { GivenOutline } from './forms/outline.ts';
export { opening } from './forms/opening.ts';
export type { GivenOpening } from './forms/opening.ts';
export { cutouts } from './forms/cutouts.ts';
export { foldLines } from './forms/fold-lines.ts';
export type { GivenFoldLine, FoldLine } from './forms/fold-lines.ts';
export { optionalLine, optionalLines, optionalPlace, optionalSide } from './forms/places.ts';
export type { Place, SideChoice } from './forms/places.ts';
export { points, optionalPoints } from './forms/points.ts';
export type { GivenPoints } from './forms/points.ts';
export { pointFindings, residualFigures } from './forms/survey-report.ts';
export { optionalSpacePoints } from './forms/space-points.ts';
export { optionalTestBends } from './forms/test-bends.ts';
export { tubeGrade } from './forms/tube-grade.ts';
export { optionalTubeLegs } from './forms/tube-legs.ts';
export { optionalFloorSteps } from './forms/floor-steps.ts';
export type { GivenStep } from './forms/floor-steps.ts';
export { measuredSections, optionalStations } from './forms/stations.ts';
export type { GivenSection } from './forms/stations.ts';
export { heights, optionalDipTable, optionalSideAngles } from './forms/named-figures.ts';
export type { GivenHeights, HeldAt, SideAngle } from './forms/named-figures.ts';
export { optionalConsumption } from './forms/consumption.ts';
export type { Consumption } from './forms/consumption.ts';

// Holes: how an input gives them, what size they are, and where they lie on a panel.
export { between, FOLD_AXES, FROM_FOLD, FROM_LEFT, XY_AXES } from './forms/hole-axes.ts';
export type { HoleAxes, HoleAxis } from './forms/hole-axes.ts';
export type { HoleSpec } from './forms/holes.ts';
export type { HoleShape, SizedHole } from './forms/hole-shape.ts';
export type { NamedHole } from './forms/hole-size.ts';
export { holeSize, boltHoleSize, namedHoles, asBoltHole, meeting } from './forms/hole-size.ts';
export { placeHole, placeHoles, measuredFromNear } from './forms/place-hole.ts';
export type { HoleFrame } from './forms/place-hole.ts';
export { MOST_LEAN_DEG, MOST_ROOM_MM, tubeHole } from './forms/tube-hole.ts';
export { reachOf, widthOf } from './forms/hole-extent.ts';

// Parts that are described panel by panel.
export { panelBase, panelCorners, panelFlanges, panelOrder } from './panels/fields.ts';
export { panelPieces, panelTabs } from './panels/piece-fields.ts';
export { buildPanels } from './panels/build.ts';

// Tabs on an edge that stands on another panel, and the slots for them there.
export { bodyOf } from './panels/body.ts';
export { flawOf, leastWidth, placesOf } from './panels/tab-layout.ts';
export type { Layout as TabLayout } from './panels/tab-layout.ts';
export { isOnMetal, placedIn, siteAt } from './panels/tab-site.ts';
export type { Site as TabSite, SitePanel } from './panels/tab-site.ts';
export { clearanceTaken } from './panels/tabs.ts';
export { clearanceInSlots, usualClearance } from './forms/tab-clearance.ts';
export { withTeeth } from './flatten/teeth.ts';
export type { Tooth } from './flatten/teeth.ts';

// Rolled walls: lines, marks and holes of one, what an input means on it, and how it is bumped.
export { roundHoles } from './forms/round-holes.ts';
export type { RoundHole } from './forms/round-holes.ts';
export { besideLine, coneThrough, flatCone, flatDeg, lineMm, wallTurnDeg } from './kit/cone.ts';
export type { FlatCone, ObliqueCone } from './kit/cone.ts';
export {
  arcsThrough,
  bumpFigures,
  linesFor,
  rolledHole,
  rolledWish,
  uprightLines,
  uprightMark,
} from './kit/rolled.ts';
export type { RolledSpan, UprightWall } from './kit/rolled.ts';
export type { Rolled, RollMark, RulingLine } from './model/rolled.ts';
export type { RolledMiddle, RolledWish } from './model/wish.ts';

// A part: its panels, folds, corners and cut-outs.
export type {
  Part,
  Panel,
  Fold,
  FoldSide,
  Direction,
  Corner,
  Cutout,
  SlotRow,
} from './model/part.ts';

// The kit: a part made whole, panels in a row, a plate cut at its fold lines, joggles, free
// corners, another hand or root.
export { assemble } from './kit/assemble.ts';
export { turnedFold } from './kit/turned-fold.ts';
export { stripPart } from './kit/strip.ts';
export type { StripPanel, StripFold } from './kit/strip.ts';
export { hatPart } from './kit/hat-strip.ts';
export { slopedHat, slopesOf } from './kit/sloped-hat.ts';
export type { HatAsk, SlopedHat } from './kit/sloped-hat.ts';
export { splitPlate } from './kit/split-plate.ts';
export type { SplitPlate } from './kit/split-plate.ts';
export { withJoggles } from './kit/joggle.ts';
export type { NamedFoldLine, WrittenFoldLine } from './kit/joggle.ts';
export { roundFreeCorners, cornerMm, cornerInput } from './kit/free-corners.ts';
export type { FreeCorner } from './kit/free-corners.ts';
export { middleFold } from './kit/middle-fold.ts';
export { impossibleTeardrop } from './kit/teardrop.ts';
export { mirrorPart } from './model/mirror.ts';
export { reroot } from './model/reroot.ts';

// Wishes: what each input is on the finished part, for the proof to find there.
export { wish, edge, faceOf, cornerOf, holeWishes, diameterWish, angleWish } from './kit/wishes.ts';
export { spacingWishes } from './kit/point-wishes.ts';
export type { AskedPlace } from './kit/point-wishes.ts';
export type { Facing, Feature, Wish } from './model/wish.ts';

// Where a piece of several stands in the whole.
export type { Standing } from './model/standing.ts';
export { composePoses, invertPose, posePoint, poseVector } from './geometry/pose.ts';
export type { Pose } from './geometry/pose.ts';

// Findings: stops, warnings and notes, with the changes that remove them, and the figures written
// in them.
export const { refuse, advise, stop, warn, note } = MAKERS;
export { hasStop, forOne, orTry, orInstead } from './model/finding.ts';
export type { Finding, Try } from './model/finding.ts';
export { orMore, orLess, within, just, without, isPossible } from './model/mend.ts';
export type { Mend } from './model/mend.ts';
export { figure, atLeast, atMost, isOver, isUnder } from './text/figures.ts';

// Reports: figures and tables that are printed with the parts, and cautions.
export type { Report, ReportFigure, ReportTable } from './contract/report.ts';
export { cautionText } from './data/cautions.ts';
export type { CautionId } from './data/cautions.ts';

// Outlines: how they are made, and what their edges are called.
export type { Loop, Vertex, PolygonPoint } from './geometry/loop.ts';
export { rectangle, polygon, vertexAt } from './geometry/loop.ts';
export { circle, obround } from './geometry/shapes.ts';
export { hullOfCircles } from './geometry/hull-of-circles.ts';
export type { Spot } from './geometry/hull-of-circles.ts';
export { roundCorners } from './geometry/fillet.ts';
export { mitredOffset } from './geometry/mitred-offset.ts';

// Cutting of outlines: by a line, by another outline, and removal of doubled points.
export { clip } from './geometry/clip.ts';
export { subtract } from './geometry/subtract.ts';
export { tidyLoop } from './geometry/tidy-loop.ts';

// Measuring of outlines: pieces, lengths, areas, extents and gaps.
export { pieceOf, piecesOf, pointOn, levelCrossings, lengthOfEdge } from './geometry/piece.ts';
export type { Piece as OutlinePiece } from './geometry/piece.ts';
export { arcOf } from './geometry/arc.ts';
export { signedArea } from './geometry/measure.ts';
export { loopExtents, pointExtents } from './geometry/extents.ts';
export { isInside } from './geometry/inside.ts';
export { selfCrossing } from './geometry/self-crossing.ts';
export { loopGap, pieceGapsOf, pointGap } from './geometry/gap.ts';

// Tolerances for equal and for zero, named by meaning, each with its reason.
export {
  EXACT_MM,
  NO_FLAT_MM,
  NO_SIZE_MM,
  NOISE_DEG,
  NOISE_MM,
  SAME_LENGTH_MM,
  SAME_POINT_MM,
  SETTLED_MM,
  wholeDown,
  wholeUp,
} from './geometry/tolerance.ts';
export { MIDDLE_OF_SHEET } from './model/bend-rule.ts';
export { listIn, mapIn } from './text/grouped.ts';
export { LITRES_PER_MM3, M3_PER_MM3 } from './text/units.ts';

// Vectors of the plane.
export type { Vec2 } from './geometry/vec2.ts';
export {
  add,
  sub,
  scale,
  along,
  middle,
  unit,
  dot,
  cross,
  leftOf,
  distance,
} from './geometry/vec2.ts';

// Vectors of space.
export type { Vec3 } from './geometry/vec3.ts';
export { sub3, along3, mix3, scale3, unit3, dot3, cross3, length3 } from './geometry/vec3.ts';

// Degrees, exact at quarter turns.
export { sinDeg, cosDeg, tanDeg } from './geometry/degrees.ts';

// Motions of the plane: shifts and turns, one after the other.
export type { Motion2 } from './geometry/motion2.ts';
export {
  STILL,
  shift,
  motionBetween,
  compose,
  invert,
  movePoint,
  moveLoop,
} from './geometry/motion2.ts';

// Bends: what a fold takes off its panels, by which rule, and the blank of a part.
export { setbackMm } from './bending/setback.ts';
export { bendFigures } from './bending/bend.ts';
export { leastRadiusMm } from './bending/least-radius.ts';
export { formerRadiusMm } from './bending/springback.ts';
export type { BendRule } from './model/bend-rule.ts';
export { ruleProblem } from './bending/rule.ts';
export { ruleFindings } from './bending/rule-findings.ts';
export { flatten } from './flatten/flatten.ts';

// What is formed out of a flat panel: louvres, beads, and what a folded edge does.
export type { Formed, MarkLine } from './model/formed.ts';
export { beadSection } from './bending/bead.ts';
export type { BeadSection } from './bending/bead.ts';
export { drawnBackMm, leastRampMm, louvreAreaMm2, rampStretch } from './bending/louvre.ts';
export { edgeStiffness } from './bending/edge-stiffness.ts';

// Air in ducts: clear areas, and equivalent round ducts.
export type { ClearRectangle } from './kit/duct-air.ts';
export {
  rectangleAreaMm2,
  roundAreaMm2,
  hydraulicDiameterMm,
  equalAreaDiameterMm,
  equalFrictionDiameterMm,
  taperLengthMm,
  ORDINARY_TAPER_DEG,
} from './kit/duct-air.ts';

// Tubes: centre lines, what they are bent by, and what limits that.
export type { Bender, TubeFormer } from './model/bender.ts';
export { bentTube } from './tube/bent-tube.ts';
export type { BentAsk, BentTube } from './tube/bent-tube.ts';
export { tubeLegs } from './tube/centre-line.ts';
export type { TubeLegs } from './tube/centre-line.ts';
export { faceTrimMm, hoopPoints, legPoints } from './tube/described.ts';
export {
  diametersOfBend,
  LEAST_DIAMETERS,
  LEAST_OVER_GREATEST,
  MOST_WALL_OVER_BEND,
  SHALLOW_DEG,
  stretchOutside,
  wallFactor,
} from './tube/limits.ts';
export { guessedSpringback, springbackOf } from './tube/springback.ts';
export type { TubeSpringback } from './tube/springback.ts';
export type { TubePart, TubePiece } from './tube/tube-part.ts';

// Schematics: what a family of tubes is asked, as a picture.
export { arcPoints, polar, ringLines, tubeLines } from './kit/schematic-lines.ts';
export type { Schematic, SchematicLine, SchematicSize } from './model/schematic.ts';

// Copes: the end of a tube on what it sits on.
export { biteOfKnife, copeOn, depthsOf, spanOf } from './tube/cope/cope.ts';
export { chopSawCuts } from './tube/cope/chop-saw.ts';
export { copedPart } from './tube/cope/coped-part.ts';
export type { CopedTube } from './tube/cope/coped-part.ts';
export { copedTube } from './tube/cope/coped-tube.ts';
export type { CopedAsked, CopedMade } from './tube/cope/coped-tube.ts';
export { holeSawCut } from './tube/cope/hole-saw.ts';
export { MOST_MITRE_DEG, mitreOf, mitreRoundMm } from './tube/cope/mitre.ts';
export type { CutMitre, MitreFlaw } from './tube/cope/mitre.ts';
export type { HeaderSeat, Seat } from './tube/cope/seat.ts';
