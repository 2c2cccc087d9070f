import { figure } from '../text/figures.ts';
import { edgeNames, edgesCalled, type Loop } from '../geometry/loop.ts';
import { pieceOf } from '../geometry/piece.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import { distance } from '../geometry/vec2.ts';
import { isLength } from './length-limits.ts';
import type { Fold, FoldSide, Panel, Part } from '../model/part.ts';
import { type Finding, stop } from '../model/finding.ts';

/**
 * Edges that templates compute by trigonometry on both sides may differ by this much through
 * rounding, mm.
 */
const LEAST_MISFIT_MM = 1e-4;

/** What is wrong with folds between sound panels. */
export const foldFlaws = (part: Part): Finding[] => {
  const panels = new Map(part.panels.map((p) => [p.id, p]));
  const flaws = part.folds.flatMap((fold) =>
    flawsOf(fold, panels).map((flaw) => stop('fold-misfit', `Fold ${fold.id} ${flaw}`)),
  );
  return flaws.length > 0 ? flaws : overlaps(part, panels);
};

/** The flaws of a fold, each worded to continue a sentence that begins with the fold's name. */
const flawsOf = (fold: Fold, panels: ReadonlyMap<string, Panel>): string[] => {
  const { parent, child, angleDeg, insideRadiusMm, slots } = fold;
  const flaws = [
    ...(angleDeg >= 0 && angleDeg <= 180
      ? []
      : [`turns by ${angleDeg} degrees: give 0 to 180, and direction up or down.`]),
    ...(isLength(insideRadiusMm)
      ? []
      : [`has an inside radius of ${insideRadiusMm}: give insideRadiusMm, 0 mm or more.`]),
    ...(slots === undefined ||
    [slots.longestMm, slots.landMm, slots.widthMm].every((v) => isLength(v) && v > 0)
      ? []
      : [
          `has slots of ${slots.longestMm} x ${slots.widthMm} with lands of ${slots.landMm}: give all three, more than 0.`,
        ]),
    ...(parent.panel === child.panel
      ? [`joins panel '${parent.panel}' to itself: name another panel as its child.`]
      : []),
    ...sideFlaw('parent', parent, panels),
    ...sideFlaw('child', child, panels),
  ];
  if (flaws.length > 0) return flaws;
  const [one, other] = [lengthOf(parent, panels), lengthOf(child, panels)];
  if (Math.abs(one - other) <= LEAST_MISFIT_MM) return [];
  return [
    `joins ${figure(one, 4)} mm of ${edgeText(parent)} to ${figure(other, 4)} mm of ${edgeText(child)}: give from and to of the longer one, so that both stretches have the same length.`,
  ];
};

/** An edge as the part gives it. */
const edgeText = ({ panel, edge, called }: FoldSide): string =>
  `edge ${called === undefined ? edge : `'${called}'`} of '${panel}'`;

const sideFlaw = (which: string, side: FoldSide, panels: ReadonlyMap<string, Panel>): string[] => {
  const { panel: id, edge, from, to } = side;
  const panel = panels.get(id);
  if (panel === undefined)
    return [
      `has the ${which} '${id}', which is no panel: name one of ${[...panels.keys()].map((name) => `'${name}'`).join(', ')}.`,
    ];
  const { outline } = panel;
  if (!Number.isInteger(edge) || edge < 0 || edge >= outline.length)
    return [`is on ${edgeText(side)}, ${noSuchEdge(outline, side)}`];
  if (outline[edge]?.bulge !== 0)
    return [`is on ${edgeText(side)}, which is an arc: only straight edges fold.`];
  const total = edgeLength(panel, edge);
  const [start, end] = [from ?? 0, to ?? total];
  if (start >= -NOISE_MM && end <= total + NOISE_MM && end - start > NOISE_MM) return [];
  return [
    `takes ${edgeText(side)} from ${figure(start, 4)} to ${figure(end, 4)} mm, but it is ${figure(total, 4)} mm long: give from and to within it, from before to.`,
  ];
};

/** Says which edges an outline has that lacks the given one. */
const noSuchEdge = (outline: Loop, { called }: FoldSide): string => {
  const [numbers, names] = [`0 to ${outline.length - 1}`, edgeNames(outline).join(', ')];
  if (called === undefined)
    return `which has edges ${numbers}: name one of these${names === '' ? '' : `, or one by its name: ${names}`}.`;
  if (names === '')
    return `whose edges have no names: give its number, ${numbers}, or its name at the point where it begins, as { x, y, edge: '${called}' }.`;
  const alike = edgesCalled(outline, called);
  return alike.length > 1
    ? `and edges ${alike.join(' and ')} are called that: give each a name of its own; the names are ${names}.`
    : `which has edges ${names}: name one of these.`;
};

const edgeLength = ({ outline }: Panel, edge: number): number => {
  const piece = pieceOf(outline, edge);
  return distance(piece.from, piece.to);
};

/** The stretch of a sound side along its edge. */
const stretchOf = (
  { panel, edge, from = 0, to }: FoldSide,
  panels: ReadonlyMap<string, Panel>,
): readonly [from: number, to: number] => [
  from,
  to ?? edgeLength(panels.get(panel) as Panel, edge),
];

const lengthOf = (side: FoldSide, panels: ReadonlyMap<string, Panel>): number => {
  const [from, to] = stretchOf(side, panels);
  return to - from;
};

/** Two folds that take the same metal of one edge. */
const overlaps = ({ folds }: Part, panels: ReadonlyMap<string, Panel>): Finding[] => {
  const sides = folds.flatMap(({ id, parent, child }) =>
    [parent, child].map((side) => ({ id, side, stretch: stretchOf(side, panels) })),
  );
  return sides.flatMap((a, i) =>
    sides.slice(i + 1).flatMap((b) => {
      if (a.side.panel !== b.side.panel || a.side.edge !== b.side.edge) return [];
      const [from, to] = [
        Math.max(a.stretch[0], b.stretch[0]),
        Math.min(a.stretch[1], b.stretch[1]),
      ];
      if (to - from <= NOISE_MM) return [];
      return [
        stop(
          'fold-misfit',
          `Folds ${a.id} and ${b.id} both take ${edgeText(a.side)} from ${figure(from, 4)} to ${figure(to, 4)} mm: give each a stretch of its own, with from and to.`,
        ),
      ];
    }),
  );
};
