import { figure } from '../figures.ts';
import { type Finding, note, stop } from '../model/finding.ts';
import { MM_PER_INCH } from '../units.ts';
import type { Alignment } from './alignment.ts';
import type { Sheet } from './contours.ts';

/** What became of the contours and fold lines of a file. */
export interface Losses {
  readonly lostHoles: readonly string[];
  readonly strayContours: number;
  readonly lostFolds: readonly string[];
  readonly strayFolds: number;
  readonly turnedFolds: readonly string[];
  /** Whether the file has fold lines at all. */
  readonly hasFolds: boolean;
}

/** A scale nearer to 1 than this is an edit, or nothing. */
const SAME_SCALE = 1e-4;

/** The usual accidents of a file that has been in another program, as far as they are to be seen. */
export const accidents = (sheet: Sheet, unit: string, to: Alignment, losses: Losses): Finding[] => [
  ...scaleFinding(to.scale, unit),
  ...(to.mirrored ? [stop('file-mirrored', 'The file is mirrored: it folds to the other hand. Mirror it back, or fold the other way and mark it as the other hand.')] : []),
  ...placeFinding(to),
  ...contourFindings(sheet, losses),
  ...foldFindings(losses),
  ...(sheet.unread.length > 0 ? [stop('file-not-read', `The file has ${sheet.unread.join(', ')} on the layers of cuts and folds, which the proof does not read: save them as lines and arcs.`)] : []),
  ...(sheet.strange.length > 0 ? [stop('strange-layer', `There are lines on ${sheet.strange.map((l) => `layer ${l}`).join(', ')}, which is none of the part: they may be cut. Delete them, or put them on the layer they came from.`)] : []),
];

const scaleFinding = (scale: number, unit: string): Finding[] => {
  const near = (wanted: number): boolean => Math.abs(scale / wanted - 1) < SAME_SCALE;
  if (near(1)) return [];
  if (near(MM_PER_INCH)) return [stop('file-scaled', `The file is ${MM_PER_INCH} times too large (its unit: ${unit}): millimetres were taken for inches. Save it in millimetres, or scale it by 1/${MM_PER_INCH}.`)];
  if (near(1 / MM_PER_INCH)) return [stop('file-scaled', `The file is ${MM_PER_INCH} times too small (its unit: ${unit}): it is in inches and read as millimetres. Save it in millimetres, or scale it by ${MM_PER_INCH}.`)];
  return [stop('file-scaled', `The file is scaled by ${figure(scale, 5)} (its unit: ${unit}). Scale it by ${figure(1 / scale, 5)}.`)];
};

const placeFinding = (to: Alignment): Finding[] => {
  const turn = (Math.atan2(to.b, to.a) * 180) / Math.PI;
  if (to.mirrored || Math.abs(to.scale - 1) > SAME_SCALE || (Math.abs(turn) < 1e-3 && Math.hypot(to.x, to.y) < 1e-2)) return [];
  return [note('file-moved', `The blank was shifted or turned in the file, by ${figure(turn)} degrees: that does no harm.`)];
};

const contourFindings = ({ outlines, open }: Sheet, { lostHoles, strayContours }: Losses): Finding[] => [
  ...(outlines.length > 1 ? [stop('contour-stray', `There are ${outlines.length} closed contours on the layer OUTLINE, where one belongs.`)] : []),
  ...open.map(([x, y]): Finding => ({ ...stop('contour-open', `A contour near ${figure(x)}, ${figure(y)} is not closed: a piece of it is missing or does not meet the next.`), at: [x, y] })),
  ...(lostHoles.length > 0 ? [stop('contour-lost', `Lost from the layer HOLES: ${lostHoles.join(', ')}.`)] : []),
  ...(strayContours > 0 ? [stop('contour-stray', `On the layer HOLES there ${strayContours === 1 ? 'is a contour' : `are ${strayContours} contours`} that the part does not have.`)] : []),
];

const foldFindings = ({ lostFolds, strayFolds, turnedFolds, hasFolds }: Losses): Finding[] => [
  ...(lostFolds.length === 0 || hasFolds ? [] : [note('fold-lines-left-out', 'The file has no fold lines, only what is cut: it was folded where they were drawn when it was made.')]),
  ...(lostFolds.length > 0 && hasFolds ? [stop('fold-line-lost', `Lost from the layers of fold lines: fold ${lostFolds.join(', ')}.`)] : []),
  ...(strayFolds > 0 ? [stop('fold-line-stray', `There ${strayFolds === 1 ? 'is a fold line' : `are ${strayFolds} fold lines`} too many.`)] : []),
  ...turnedFolds.map((id) => stop('fold-turned', `Fold ${id} is on the layer of folds that go the other way: the part would be folded inside out there.`)),
];
