import { setbackMm } from '../bending/setback.ts';
import { figure } from '../text/figures.ts';
import { rectangle } from '../geometry/loop.ts';
import type { CommonValues } from '../forms/common.ts';
import type { HoleSpec } from '../forms/holes.ts';
import { type HoleFrame, placeHoles } from '../forms/place-hole.ts';
import type { Built, GivenFold } from '../forms/template.ts';
import { type Finding, refuse } from '../model/finding.ts';
import { orLess, orMore } from '../model/mend.ts';
import type { Direction, Measure, Panel } from '../model/part.ts';
import type { Feature, Wish } from '../model/wish.ts';
import { assemble } from './assemble.ts';
import { type FreeCorners, roundFreeCorners } from './free-corners.ts';
import { angleWish, cornerOf, edge, holeWishes, wish } from './wishes.ts';
import { NO_FLAT_MM } from '../geometry/tolerance.ts';

/** A rectangular panel of a strip. */
export interface StripPanel {
  readonly id: string;
  /** Length across the folds, on its mould lines. */
  readonly lengthMm: number;
  /** The input, or the sum of inputs, that the length is. */
  readonly input?: string;
  /** Holes, with the name of the input that gave them; none when left out. */
  readonly holes?: readonly [input: string, specs: readonly HoleSpec[]];
  /** Which of its folds the holes are measured from; a panel with a single fold needs none. */
  readonly holesFrom?: 'below' | 'above';
}

/** The fold between a panel and the one above it. */
export interface StripFold {
  readonly angleDeg: number;
  readonly direction: Direction;
  /** The input that the angle is. */
  readonly input?: string;
}

/**
 * A strip of rectangular panels joined by parallel folds over the full width. In the drawing the
 * panels stand one above the other, the folds run from left to right, and the left end of each is
 * at x = 0. Folds are named A, B, ... from the bottom up. The meaning of the inputs is stated for
 * the lengths and angles that name theirs, and for the width as `width`. A length that its bends
 * take up whole stops the part.
 */
export function stripPart(
  values: CommonValues,
  widthMm: number,
  panels: readonly StripPanel[],
  folds: readonly StripFold[],
  root: string,
): Built {
  const short = panels.flatMap((panel, i) => allBend(values, panel, [folds[i - 1], folds[i]]));
  if (short.length > 0) return { findings: short };
  const shapes = panels.map((panel, i) =>
    freeCorners(values, widthMm, panel, folds[i - 1], folds[i]),
  );
  const rootIndex = panels.findIndex((panel) => panel.id === root);
  return {
    part: assemble(values, {
      root,
      panels: panels.map((panel, i) =>
        toPanel(
          panel,
          { widthMm, thicknessMm: values.thicknessMm },
          shapes[i],
          isFromBelow(panel, i),
        ),
      ),
      folds: folds.map((fold, i) => toFold(values, fold, i, panels, i < rootIndex)),
      wishes: [
        wish('width', widthMm, edge(root, 'left'), edge(root, 'right')),
        ...panels.flatMap((panel, i) => panelWishes(values.measure, panels, folds, panel, i)),
        ...folds.flatMap(({ input, angleDeg }, i) =>
          input === undefined
            ? []
            : [
                angleWish(
                  `${input} at ${nameOfFold(i)}`,
                  angleDeg,
                  panels[i]?.id ?? '',
                  panels[i + 1]?.id ?? '',
                ),
              ],
        ),
      ],
    }),
    findings: shapes.flatMap((shape) => shape.findings),
  };
}

/**
 * What the length of a panel and the places of its holes mean from end to end of it: each end is a
 * free edge, or what its fold leads to.
 */
function panelWishes(
  measure: Measure,
  panels: readonly StripPanel[],
  folds: readonly StripFold[],
  panel: StripPanel,
  i: number,
): Wish[] {
  const end = (index: number, beyond: number, facing: 'up' | 'down'): Feature => {
    const [fold, other] = [folds[index], panels[beyond]];
    return fold === undefined || other === undefined
      ? edge(panel.id, facing)
      : cornerOf(panel.id, { ...fold, fold: nameOfFold(index), beyond: other.id }, measure);
  };
  const ends = [end(i - 1, i - 1, 'down'), end(i, i + 1, 'up')] as const;
  const [input, specs] = panel.holes ?? ['', []];
  return [
    ...(panel.input === undefined ? [] : [wish(panel.input, panel.lengthMm, ...ends)]),
    ...holeWishes(input, specs, {
      panel: panel.id,
      across: isFromBelow(panel, i) ? ends : [ends[1], ends[0]],
      along: [edge(panel.id, 'left'), edge(panel.id, 'right')],
    }),
  ];
}

/**
 * Finding on a panel that its bends take up, with the length that leaves as much flat as the sheet
 * is thick, to hold it by.
 */
function allBend(
  values: CommonValues,
  { lengthMm, input }: StripPanel,
  beside: readonly (StripFold | undefined)[],
): Finding[] {
  const { insideRadiusMm: r, thicknessMm: t, measure } = values;
  const folds = beside.flatMap((fold) => (fold === undefined ? [] : [fold.angleDeg]));
  const taken = (radiusMm: number): number =>
    folds.reduce((sum, angleDeg) => sum + setbackMm(angleDeg, radiusMm, t, measure), 0);
  if (input === undefined || lengthMm - taken(r) >= NO_FLAT_MM) return [];
  // The setback is the same share of the radius, whatever that is.
  const share = taken(1) - taken(0);
  const largest = share > 0 ? (lengthMm - t - taken(0)) / share : -1;
  const bends =
    folds.length === 1 ? 'its bend takes' : `its ${folds.length === 2 ? 'two ' : ''}bends take`;
  const mends = [orMore(input, taken(r) + t), ...(largest >= 0 ? [orLess('radius', largest)] : [])];
  return [
    refuse(
      'leg-too-short',
      [input],
      `${input} ${figure(lengthMm)} is all bend, since ${bends} ${figure(taken(r))} mm of it`,
      mends,
    ),
  ];
}

const isFromBelow = ({ holesFrom }: StripPanel, i: number): boolean =>
  holesFrom === undefined ? i > 0 : holesFrom === 'below';

const nameOfFold = (index: number): string => String.fromCharCode('A'.charCodeAt(0) + index);

function freeCorners(
  values: CommonValues,
  widthMm: number,
  panel: StripPanel,
  below: StripFold | undefined,
  above: StripFold | undefined,
): FreeCorners {
  const free = [
    ...(below === undefined ? ['bottom'] : []),
    ...(above === undefined ? ['top'] : []),
  ];
  const { insideRadiusMm: r, thicknessMm: t, measure } = values;
  const taken = [below, above].reduce(
    (sum, fold) => sum + (fold === undefined ? 0 : setbackMm(fold.angleDeg, r, t, measure)),
    0,
  );
  return roundFreeCorners(panel.id, rectangle(0, 0, widthMm, panel.lengthMm), free, values, {
    right: taken,
    left: taken,
  });
}

function toPanel(
  panel: StripPanel,
  { widthMm, thicknessMm }: { readonly widthMm: number; readonly thicknessMm: number },
  shape: FreeCorners | undefined,
  fromBelow: boolean,
): Panel {
  const spanMm = [panel.lengthMm, widthMm] as const;
  const frame: HoleFrame = fromBelow
    ? { origin: [0, 0], across: [0, 1], along: [1, 0], spanMm, thicknessMm }
    : { origin: [0, panel.lengthMm], across: [0, -1], along: [1, 0], spanMm, thicknessMm };
  return {
    id: panel.id,
    outline: shape?.outline ?? [],
    cutouts: panel.holes === undefined ? [] : placeHoles(...panel.holes, frame),
  };
}

function toFold(
  values: CommonValues,
  { angleDeg, direction }: StripFold,
  index: number,
  panels: readonly StripPanel[],
  rootIsAbove: boolean,
): GivenFold {
  const lower = { panel: panels[index]?.id ?? '', edge: 'top' };
  const upper = { panel: panels[index + 1]?.id ?? '', edge: 'bottom' };
  return {
    id: nameOfFold(index),
    parent: rootIsAbove ? upper : lower,
    child: rootIsAbove ? lower : upper,
    angleDeg,
    direction,
    insideRadiusMm: values.insideRadiusMm,
  };
}
