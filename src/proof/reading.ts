import { drawnLines } from '../dxf/read/drawn.ts';
import { type DxfSections, readRecords } from '../dxf/read/records.ts';
import { NO_PLACE } from '../dxf/read/explode.ts';
import { unlessRefused } from '../dxf/read/refusal.ts';
import { UNSTATED_UNITS, unitOf } from '../dxf/read/units.ts';
import { signedArea } from '../geometry/measure.ts';
import { pieceLength } from '../geometry/piece-length.ts';
import { piecesOf } from '../geometry/piece.ts';
import { PROOF_MM } from '../geometry/tolerance.ts';
import { align, type Aligned, SAME_SCALE } from './alignment.ts';
import type { Asked } from '../contract/asked.ts';
import { type Contour, contourOf } from '../measure/contours.ts';
import { loopOf } from '../measure/placing.ts';
import { besideCut } from './kerf.ts';
import { type FileLines, fileLines } from './file-lines.ts';

/** The unit of the file's figures, and the one in which they were made. */
export interface Unit {
  /** The unit as the file states it. */
  readonly name: string;
  /** Name of the unit in which the file was made. */
  readonly made: string;
  /**
   * How many times too large the stated unit makes a file whose figures are as they were made but
   * which states another unit.
   */
  readonly times: number;
  /** What has become of the unit that was stated when the file was made. */
  readonly said: 'kept' | 'lost' | 'unknown';
}

/** A file, with the blank found in it. */
export interface Reading {
  readonly sheet: FileLines;
  readonly unit: Unit;
  readonly blank: Blank | undefined;
}

export interface Blank extends Aligned {
  readonly outline: Contour;
}

export type Read =
  | { readonly ok: true; readonly reading: Reading }
  | { readonly ok: false; readonly reason: string };

/**
 * Reads the text of a file and finds the blank in it. Its lengths are in its stated unit. Where its
 * figures are those that were made, they are taken as made, whatever unit it states, and the error
 * of that unit is reported.
 */
export const readFile = (text: string, asked: Asked): Read =>
  unlessRefused((): Read => {
    const sections = readRecords(text);
    if (!sections.hasEntities) return { ok: false, reason: 'it has no ENTITIES section' };
    if (sections.isCutOff) return { ok: false, reason: 'it is cut off before its end' };
    return readingOf(sections, asked);
  });

/** More than this share of the features counts as most of them. */
const MOST_SHARE = 0.5;

const readingOf = (sections: DxfSections, asked: Asked): Read => {
  const made = UNSTATED_UNITS[asked.file?.unit ?? 'mm'];
  const { stated, unknown } = unitOf(sections.header);
  const said =
    unknown !== undefined
      ? 'unknown'
      : stated === undefined && asked.file?.statesUnit === true
        ? 'lost'
        : 'kept';
  const unit: Unit = {
    name: stated?.name ?? `no unit, read as ${made.name}`,
    made: made.name,
    times: 1,
    said,
  };
  const asMade = sheetIn(sections, made.mm, asked);
  if (stated === undefined || stated.mm === made.mm)
    return asMade === undefined ? NOT_READ : { ok: true, reading: { ...asMade, unit } };
  if (
    asMade?.blank !== undefined &&
    asMade.blank.share > MOST_SHARE &&
    Math.abs(asMade.blank.to.scale - 1) < SAME_SCALE
  )
    return { ok: true, reading: { ...asMade, unit: { ...unit, times: stated.mm / made.mm } } };
  const asStated = sheetIn(sections, stated.mm, asked);
  return asStated === undefined ? NOT_READ : { ok: true, reading: { ...asStated, unit } };
};

const NOT_READ: Read = { ok: false, reason: `it ${NO_PLACE}` };

/** The lines of the sheet; undefined when a line has no place. */
const sheetIn = (
  sections: DxfSections,
  mm: number,
  asked: Asked,
): Omit<Reading, 'unit'> | undefined => {
  const lines = drawnLines(sections, mm);
  if (lines.oddities.some(({ detail }) => detail === NO_PLACE)) return undefined;
  const drawn = fileLines(lines, hasArcs(asked));
  const sheet = withoutKerf(drawn, asked.kerfMm * timesLarger(drawn, asked));
  const outline = largestOf(sheet.outlines.filter((c) => signedArea(c.loop) > PROOF_MM));
  return {
    sheet,
    blank: outline === undefined ? undefined : { outline, ...align(asked, outline, sheet) },
  };
};

const hasArcs = ({ cut: { outline, holes } }: Asked): boolean =>
  [outline, ...holes].some((loop) => loop.some(([, , bulge]) => bulge !== 0));

/** A file between these sizes, in times of what was made, has lost or gained an edge at most. */
const SAME_SIZE = { from: 0.5, to: 2 } as const;

/**
 * How many times larger than it was made a file is that was saved in other units, kerf and all: by
 * the area in its outline, and that of the outline as made with half a kerf round it.
 */
const timesLarger = ({ outlines }: FileLines, { cut, kerfMm }: Asked): number => {
  const found = largestOf(outlines);
  const made = loopOf(cut.outline);
  const length = piecesOf(made).reduce((sum, p) => sum + pieceLength(p), 0);
  const cutArea = signedArea(made) + (kerfMm / 2) * length;
  const times = found === undefined ? 1 : Math.sqrt(signedArea(found.loop) / cutArea);
  return times > SAME_SIZE.from && times < SAME_SIZE.to ? 1 : times;
};

const withoutKerf = (sheet: FileLines, kerfMm: number): FileLines => {
  if (kerfMm === 0) return sheet;
  const beside =
    (left: number) =>
    (c: Contour): Contour =>
      contourOf(besideCut(c.loop, left));
  return {
    ...sheet,
    outlines: sheet.outlines.map(beside(kerfMm / 2)),
    holes: sheet.holes.map(beside(-kerfMm / 2)),
  };
};

const largestOf = (outlines: readonly Contour[]): Contour | undefined =>
  outlines.reduce<Contour | undefined>(
    (best, c) => (best === undefined || signedArea(c.loop) > signedArea(best.loop) ? c : best),
    undefined,
  );
