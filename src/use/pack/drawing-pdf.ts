import { printedIn, type PrintUnit } from '../../text/printed.ts';
import type { DrawingHead } from '../../paper/draw/drawing-head.ts';
import type { PlacedBend } from '../../paper/draw/fold-callouts.ts';
import { foldDrawing } from '../../paper/draw/fold-drawing.ts';
import { cautionsAmong } from '../../data/cautions.ts';
import { figure } from '../../text/figures.ts';
import { composePoses, invertPose, flatPose, type Pose, poseVector } from '../../geometry/pose.ts';
import { sub, unit } from '../../geometry/vec2.ts';
import type { FlatPattern } from '../../model/flat.ts';
import type { Handover } from '../../model/handover.ts';
import type { PaperMark } from '../../model/paper-mark.ts';
import type { PaperSize, SizesBy } from '../../model/paper.ts';
import type { Picture } from '../../model/picture.ts';
import type { Part } from '../../model/part.ts';
import { foldedMesh } from '../../solid/folded-mesh.ts';
import { writePdf } from '../../paper/write/pdf.ts';
import type { HandedPart } from './pack-part.ts';
import { listedMeasures } from './listed-measures.ts';
import { seatedPoses, spaceDimensions } from './space-dimensions.ts';

/** Greatest distance of chords from their curve, mm. */
const CHORDS_MM = 0.05;

/** The file that the blank is cut from, and the drawing's own. */
export interface DrawingFiles {
  readonly cutFile: string;
  readonly file: string;
  /** By that cut file; by its name alone when left out. */
  readonly paperMark?: PaperMark;
}

export interface DrawingOptions {
  readonly handover: Handover;
  /** What is usual when left out: A3 where the part is drawn larger on it than on A4. */
  readonly paper?: PaperSize | undefined;
  /** As the user wrote it. */
  readonly date?: string | undefined;
  /** How sizes of the blank are written; from the datum when left out. */
  readonly sizes?: SizesBy | undefined;
  /** mm when left out. */
  readonly printUnits?: PrintUnit | undefined;
}

/** The drawing of a part that a service folds, as a PDF. */
export const drawingPdf = (
  whole: HandedPart,
  files: DrawingFiles,
  options: DrawingOptions,
): Uint8Array => {
  const { result, mark } = whole.made;
  return writePdf(drawingPages(whole, files, options), {
    title: `${result.name}, ${result.hand} hand, folding`,
    mark,
  });
};

/** Pages of the drawing. */
export const drawingPages = (
  whole: HandedPart,
  files: DrawingFiles,
  options: DrawingOptions,
): Picture[] => {
  const { handover, paper, sizes, printUnits } = options;
  const { part, flat, datum, result } = whole.made;
  const mesh = foldedMesh(part, flat, CHORDS_MM);
  if (mesh === undefined) throw new Error(`${part.name} has no blank`);
  return foldDrawing({
    head: headOf(whole, files, options),
    isChain: sizes === 'chain',
    paper: paper === 'plotter' || typeof paper === 'object' ? undefined : paper,
    mesh,
    flat,
    datum,
    bends: placedBends(part, flat),
    dimensions: spaceDimensions(part, flat, result.proof.measures, handover.tolerance),
    measures: listedMeasures(whole.made, handover.tolerance, printedIn(printUnits)),
  });
};

const headOf = (
  { made: { result, material }, revision = '', baseName }: HandedPart,
  { cutFile, file, paperMark }: DrawingFiles,
  { handover: { tolerance, protect }, date = '', printUnits }: DrawingOptions,
): DrawingHead => ({
  print: printedIn(printUnits),
  name: result.name,
  // Of a pair the hand is a word of its own beside the name.
  ...(baseName !== result.name && { hand: result.hand }),
  quantity: result.quantity,
  sheet: `${material.name}, ${figure(result.material.thicknessMm, 3)} mm`,
  thicknessMm: result.material.thicknessMm,
  massKg: result.blank.massKg,
  sizeMm: result.folded.sizeMm,
  measure: result.proof.made.measure,
  tolerance,
  grain: result.findings.some((f) => f.rule === 'grain-direction')
    ? 'rolled square to the fold lines'
    : 'any direction',
  protect: protectText(
    protect,
    result.bends.map((b) => b.direction),
  ),
  revision,
  cutFile,
  file,
  paperMark: paperMark ?? { part: result.name, revision, file: cutFile },
  cautions: cautionsAmong(result.findings),
  date,
});

/**
 * Note on the face to be protected. On a part that is folded both ways, each face is an inside one
 * somewhere.
 */
const protectText = (protect: Handover['protect'], ways: readonly ('up' | 'down')[]): string => {
  if (protect === 'none' || ways.length === 0) return 'none';
  if (ways.some((way) => way !== ways[0])) return 'both faces (folded both ways)';
  return `${protect} face, the ${(ways[0] === 'up') === (protect === 'inside') ? 'upper' : 'lower'} one of the DXF`;
};

/** The bends with the lines about which they turn. */
const placedBends = (part: Part, flat: FlatPattern): PlacedBend[] => {
  const poses = seatedPoses(part, flat);
  return flat.bends.map(
    ({ id, parent, child, angleDeg, direction, insideRadiusMm, centreLine: [a, b] }) => {
      // The line lies in both of its panels; a rolled one has no pose.
      const panel = poses.has(parent) ? parent : child;
      const placement = flat.panels.find((p) => p.id === panel)?.placement;
      const [x, y] = unit(sub(b, a));
      const inPart =
        placement === undefined
          ? undefined
          : composePoses(poses.get(panel) as Pose, invertPose(flatPose(placement)));
      return {
        id,
        angleDeg,
        direction,
        insideRadiusMm,
        axis: inPart === undefined ? [x, y, 0] : poseVector(inPart, [x, y, 0]),
      };
    },
  );
};
