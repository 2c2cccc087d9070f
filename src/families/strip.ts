import { setbackMm } from '../bending/setback.ts';
import { rectangle } from '../geometry/loop.ts';
import type { CommonValues } from '../input/common.ts';
import type { HoleSpec } from '../input/holes.ts';
import { type HoleFrame, placeHoles } from '../input/place-hole.ts';
import type { Built } from '../input/template.ts';
import type { Direction, Fold, Panel } from '../model/part.ts';
import { assemble } from './assemble.ts';
import { type FreeCorners, roundFreeCorners } from './free-corners.ts';

/** A rectangular panel of a strip. */
export interface StripPanel {
  readonly id: string;
  /** Across the folds, on its mould lines. */
  readonly lengthMm: number;
  /** Holes, with the name of the input that gave them; none when left out. */
  readonly holes?: readonly [input: string, specs: readonly HoleSpec[]];
  /** Which of its folds the holes are measured from; the one it has, when it has only one. */
  readonly holesFrom?: 'below' | 'above';
}

/** The fold between a panel and the one above it. */
export interface StripFold {
  readonly angleDeg: number;
  readonly direction: Direction;
}

/** Pieces of a rectangle, and the corners they start at: bottom, right, top, left. */
const [BOTTOM, RIGHT, TOP, LEFT] = [0, 1, 2, 3];

/**
 * A strip of rectangular panels joined by parallel folds over the full width. In the drawing the panels stand one
 * above the other, the folds run from left to right, and the left end of each is at x = 0. Folds are named A, B, ...
 * from the bottom up.
 */
export function stripPart(
  values: CommonValues,
  widthMm: number,
  panels: readonly StripPanel[],
  folds: readonly StripFold[],
  root: string,
): Built {
  const shapes = panels.map((panel, i) => freeCorners(values, widthMm, panel, folds[i - 1], folds[i]));
  const rootIndex = panels.findIndex((panel) => panel.id === root);
  return {
    part: assemble(values, {
      root,
      panels: panels.map((panel, i) => toPanel(panel, widthMm, shapes[i], i > 0)),
      folds: folds.map((fold, i) => toFold(values, fold, i, panels, shapes, i < rootIndex)),
    }),
    findings: shapes.flatMap((shape) => shape.findings),
  };
}

function freeCorners(
  values: CommonValues,
  widthMm: number,
  panel: StripPanel,
  below: StripFold | undefined,
  above: StripFold | undefined,
): FreeCorners {
  const corners = [...(below === undefined ? [BOTTOM, RIGHT] : []), ...(above === undefined ? [TOP, LEFT] : [])];
  const { insideRadiusMm: r, thicknessMm: t, measure } = values;
  const taken = [below, above].reduce((sum, fold) => sum + (fold === undefined ? 0 : setbackMm(fold.angleDeg, r, t, measure)), 0);
  return roundFreeCorners(panel.id, rectangle(0, 0, widthMm, panel.lengthMm), corners, values, [0, taken, 0, taken]);
}

function toPanel(panel: StripPanel, widthMm: number, shape: FreeCorners | undefined, foldedBelow: boolean): Panel {
  const fromBelow = panel.holesFrom === undefined ? foldedBelow : panel.holesFrom === 'below';
  const spanMm = [panel.lengthMm, widthMm] as const;
  const frame: HoleFrame = fromBelow
    ? { origin: [0, 0], across: [0, 1], along: [1, 0], spanMm }
    : { origin: [0, panel.lengthMm], across: [0, -1], along: [1, 0], spanMm };
  return { id: panel.id, outline: shape?.outline ?? [], cutouts: panel.holes === undefined ? [] : placeHoles(...panel.holes, frame) };
}

function toFold(
  values: CommonValues,
  fold: StripFold,
  index: number,
  panels: readonly StripPanel[],
  shapes: readonly FreeCorners[],
  rootIsAbove: boolean,
): Fold {
  const lower = { panel: panels[index]?.id ?? '', edge: shapes[index]?.edge(TOP) ?? 0 };
  const upper = { panel: panels[index + 1]?.id ?? '', edge: shapes[index + 1]?.edge(BOTTOM) ?? 0 };
  return {
    id: String.fromCharCode('A'.charCodeAt(0) + index),
    parent: rootIsAbove ? upper : lower,
    child: rootIsAbove ? lower : upper,
    ...fold,
    insideRadiusMm: values.insideRadiusMm,
  };
}
