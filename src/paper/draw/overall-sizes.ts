import { along, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import type { PictureItem } from '../../model/picture.ts';
import {
  type DimensionLine,
  dimensionChoices,
  dimensionItems,
  dimensionLines,
} from './dimension-line.ts';
import { type Ground, type Line2, runsThrough, textGround } from './ground.ts';
import type { Candidate, Placer } from './placer.ts';

/** Letters of an overall size, mm: the largest that find room. */
const SIZES_MM = [5, 4, 3.2] as const;
/** What is left of an extension line in the way of which a figure stands, mm. */
const STUMP_MM = 3.5;
/** What it costs a name to lie across a line of an overall size. */
const LINE_COST = 60;

interface OverallPlace extends Candidate {
  readonly dimension: DimensionLine;
}

/** An overall size of the blank on paper: from which point to which, and where its line lies. */
export interface OverallSize {
  readonly feet: readonly [Vec2, Vec2];
  readonly ends: readonly [Vec2, Vec2];
  readonly text: string;
}

/**
 * A size with arrows at both ends, its figure above the line, or left of it and read from the right.
 * Its extension lines are broken where one of the figures stands in their way.
 */
export const overallSize = (
  { feet, ends, text }: OverallSize,
  placer: Placer,
  figures: readonly Ground[],
): PictureItem[] => {
  const bare = { feet, ends, way: unit(sub(ends[1], ends[0])) };
  const places = SIZES_MM.flatMap((sizeMm) =>
    dimensionChoices(bare, text, sizeMm, true).map((dimension): OverallPlace => ({
      dimension,
      grounds: [textGround(dimension.text)],
    })),
  );
  const { dimension } = placer.place(places) ?? (places.at(-1) as OverallPlace);
  const [shaft, ...extensions] = dimensionLines(dimension);
  const lines = [shaft, ...extensions.map((l) => broken(l, figures))];
  placer.avoid(...lines.map((l) => ({ line: l, cost: LINE_COST })));
  return dimensionItems(dimension, lines);
};

const broken = (whole: Line2, figures: readonly Ground[]): Line2 => {
  const [from, to] = whole;
  return figures.some((f) => runsThrough(f, whole))
    ? [along(to, unit(sub(from, to)), STUMP_MM), to]
    : whole;
};
