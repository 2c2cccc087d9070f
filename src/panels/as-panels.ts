import { ruleText } from '../bending/rule.ts';
import type { CommonValues } from '../forms/common.ts';
import { isSameValue } from '../text/same-value.ts';
import type { Loop } from '../geometry/loop.ts';
import { pieceOf } from '../geometry/piece.ts';
import { distance, dot, sub, unit } from '../geometry/vec2.ts';
import type { Cutout, Fold, FoldSide, Panel, Part } from '../model/part.ts';
import { writtenHole } from './written-hole.ts';
import { letterOf } from './tree.ts';
import { buildPanels, type Panels } from './build.ts';
import type { GivenBaseMap, GivenCornerMap, GivenFlangeMap } from './given.ts';

/** A part as its panels, or the figure of it that they cannot say. */
export type AsPanels =
  { readonly ok: true; readonly panels: Panels } | { readonly ok: false; readonly why: string };

/**
 * Describes a part panel by panel: the inputs of `panels` that build just that part, to the last
 * digit. Panels that are rectangles on their fold are written with a height, others by outlines.
 */
export function asPanels(part: Part, common: CommonValues): AsPanels {
  if (part.rolled !== undefined) return { ok: false, why: 'rolled wall' };
  if (part.panels.some(({ formed }) => formed !== undefined))
    return { ok: false, why: 'louvres or beads' };
  const values = { ...common, measure: part.measure };
  const plain = new Set(part.panels.filter((panel) => isPlainOn(part, panel)).map(({ id }) => id));
  for (let tries = 0; tries <= part.panels.length; tries++) {
    const panels = described(part, plain, values);
    const { problems, built } = buildPanels(panels, values);
    const made = built.part;
    if (made === undefined) {
      const why = problems[0] ?? built.findings?.[0];
      return { ok: false, why: JSON.stringify(why) };
    }
    const others = new Set(othersIn(part, made));
    const other = part.panels.filter(({ id }) => plain.has(id) && others.has(id));
    if (other.length === 0) {
      const wrong = differenceOf(part, made);
      return wrong === undefined ? { ok: true, panels } : { ok: false, why: wrong };
    }
    // What a plain panel with these figures is not, to the last digit, its outline is.
    for (const { id } of other) plain.delete(id);
  }
  return { ok: false, why: 'its panels' };
}

/** Panels that came out with another outline, or with a fold on another stretch of them. */
const othersIn = (part: Part, made: Part): readonly string[] => [
  ...part.panels.filter((panel) => !isSamePanel(panel, made)).map(({ id }) => id),
  ...part.folds.flatMap((fold, i) => {
    const other = made.folds[i];
    return other !== undefined && isSameValue(foldFigures(part)(fold), foldFigures(made)(other))
      ? []
      : [fold.parent.panel, fold.child.panel];
  }),
];

const isSamePanel = ({ id, outline }: Panel, made: Part): boolean => {
  const other = made.panels.find((panel) => panel.id === id)?.outline ?? [];
  return isSameValue(bare(outline), bare(other));
};

const bare = (outline: Loop): Loop => outline.map(({ x, y, bulge }) => ({ x, y, bulge }));

/** What of two parts is not the same; the names that their inputs give are not looked at. */
const differenceOf = (part: Part, made: Part): string | undefined => {
  const cut = (cutout: Cutout) => ({
    use: cutout.use,
    ...(cutout.kind === 'round'
      ? { centre: cutout.centre, diameterMm: cutout.diameterMm }
      : { loop: bare(cutout.loop) }),
  });
  const looked = (p: Part) => ({
    measure: p.measure,
    thicknessMm: p.thicknessMm,
    relief: p.relief,
    cornerGapMm: p.cornerGapMm,
    corners: p.corners ?? [],
    root: p.root,
    panels: p.panels.map(({ id, outline, cutouts }) => ({
      id,
      outline: bare(outline),
      cutouts: cutouts.map(cut),
    })),
    folds: p.folds.map(foldFigures(p)),
  });
  const [one, other] = [looked(part), looked(made)];
  return (Object.keys(one) as (keyof typeof one)[]).find(
    (key) => !isSameValue(one[key], other[key]),
  );
};

/** A fold by its figures; a stretch that is all of its edge is that, whichever way it was said. */
const foldFigures =
  (part: Part) =>
  ({ parent, child, slots, ...fold }: Fold): unknown => {
    const side = ({ panel, edge, from, to }: FoldSide) => {
      const outline = part.panels.find(({ id }) => id === panel)?.outline ?? [];
      const piece = pieceOf(outline, edge);
      return { panel, edge, from: from ?? 0, to: to ?? distance(piece.from, piece.to) };
    };
    return {
      ...fold,
      asked: undefined,
      parent: side(parent),
      child: side(child),
      ...(slots !== undefined && { slots: { ...slots, landInput: undefined } }),
    };
  };

type Side = 'bottom' | 'right' | 'top' | 'left';

/** The edges of a plain panel, by where they lie. */
const sideOfPlain = ({ outline }: Panel, edge: number): Side | undefined => {
  const { from, to, bulge } = pieceOf(outline, edge);
  const [w, h] = extentsOf(outline);
  const on = (axis: 0 | 1, level: number): boolean => from[axis] === level && to[axis] === level;
  if (bulge !== 0) return undefined;
  return on(1, 0)
    ? 'bottom'
    : on(0, w)
      ? 'right'
      : on(1, h)
        ? 'top'
        : on(0, 0)
          ? 'left'
          : undefined;
};

const extentsOf = (outline: Loop): readonly [width: number, height: number] => [
  Math.max(...outline.map(({ x }) => x)),
  Math.max(...outline.map(({ y }) => y)),
];

/** It may be a rectangle that stands with all of its foot on a fold, its corners taken off or not. */
const isPlainOn = (part: Part, panel: Panel): boolean => {
  const { outline } = panel;
  const isAtHome =
    Math.min(...outline.map(({ x }) => x)) === 0 && Math.min(...outline.map(({ y }) => y)) === 0;
  if (!isAtHome) return false;
  const foot = part.folds.find(({ child }) => child.panel === panel.id)?.child;
  const sides = part.folds
    .filter(({ parent }) => parent.panel === panel.id)
    .map(({ parent }) => parent);
  if (sides.some(({ edge }) => sideOfPlain(panel, edge) === undefined)) return false;
  if (foot === undefined) return true;
  const { from, to } = pieceOf(outline, foot.edge);
  const [width] = extentsOf(outline);
  return (
    sideOfPlain(panel, foot.edge) === 'bottom' &&
    from[0] === 0 &&
    to[0] === width &&
    foot.from === undefined &&
    foot.to === undefined
  );
};

function described(part: Part, plain: ReadonlySet<string>, values: CommonValues): Panels {
  const panelOf = (id: string): Panel => part.panels.find((panel) => panel.id === id) as Panel;
  const base = baseOf(panelOf(part.root), plain, values);
  const flanges = part.folds.map((fold, i) => flangeOf(fold, i, panelOf, { part, plain, values }));
  const corners = (part.corners ?? []).map((corner): GivenCornerMap => {
    const nameOf = (id: string): string => part.folds.find((f) => f.id === id)?.child.panel ?? id;
    return {
      between: corner.folds.map(nameOf),
      style: corner.style,
      ...(corner.through !== undefined && { through: nameOf(corner.through) }),
      ...(corner.gapMm !== undefined && { gap: corner.gapMm }),
    };
  });
  const natural = [part.root, ...part.folds.map(({ child }) => child.panel)];
  const order = part.panels.map(({ id }) => id);
  return { base, flanges, corners, ...(!isSameValue(natural, order) && { order }) };
}

/** Numbers that come out of one point as they are; with arcs a point is a map. */
const writtenOutline = (outline: Loop): GivenBaseMap['outline'] =>
  outline.every(({ bulge }) => bulge === 0)
    ? outline.map(({ x, y }) => `${x},${y}`).join('; ')
    : outline.map(({ x, y, bulge }) => ({ x, y, ...(bulge !== 0 && { bulge }) }));

/** Corners of the part are those of its plain panels: one that has none says so. */
const cornersOff = (panel: Panel, { cornerRadiusMm, cornerChamferMm }: CommonValues) =>
  panel.outline.length > 4 || (cornerRadiusMm === 0 && cornerChamferMm === 0)
    ? {}
    : { cornerRadius: 0 };

const holesOf = (panel: Panel, axes: readonly [string, string]): Pick<GivenBaseMap, 'holes'> =>
  panel.cutouts.length === 0
    ? {}
    : { holes: panel.cutouts.map((cutout) => writtenHole(cutout, axes)) };

const baseOf = (panel: Panel, plain: ReadonlySet<string>, values: CommonValues): GivenBaseMap => {
  const [width, depth] = extentsOf(panel.outline);
  return {
    name: panel.id,
    ...(plain.has(panel.id)
      ? { size: `${width} x ${depth}`, ...cornersOff(panel, values) }
      : { outline: writtenOutline(panel.outline) }),
    ...holesOf(panel, ['x', 'y']),
  };
};

interface Describing {
  readonly part: Part;
  readonly plain: ReadonlySet<string>;
  readonly values: CommonValues;
}

function flangeOf(
  fold: Fold,
  i: number,
  panelOf: (id: string) => Panel,
  { part, plain, values }: Describing,
): GivenFlangeMap {
  const panel = panelOf(fold.child.panel);
  const isPlain = plain.has(panel.id);
  const [, height] = extentsOf(panel.outline);
  const parent = panelOf(fold.parent.panel);
  const on = plain.has(parent.id)
    ? onPlain(parent, fold.parent, parent.id === part.root)
    : onOutline(fold.parent);
  return {
    name: panel.id,
    ...on,
    ...(isPlain
      ? { height, ...cornersOff(panel, values) }
      : { outline: writtenOutline(panel.outline), ...footOf(fold.child) }),
    angle: fold.angleDeg,
    direction: fold.direction,
    ...(fold.insideRadiusMm !== values.insideRadiusMm || fold.angleDeg === 180
      ? { radius: fold.insideRadiusMm }
      : {}),
    ...(fold.rule !== undefined && { rule: ruleText(fold.rule) }),
    ...(fold.teardropMm !== undefined && { hemShape: 'teardrop' as const }),
    ...(fold.rolled === true && { hugs: true }),
    ...(fold.midSurface === true && { midSurface: true }),
    ...(fold.slots !== undefined && {
      slots: true,
      slotLength: fold.slots.longestMm,
      slotLand: fold.slots.landMm,
    }),
    ...(fold.id !== letterOf(i) && { fold: fold.id }),
    ...holesOf(panel, isPlain ? ['from left', 'from foot'] : ['x', 'y']),
  };
}

const onOutline = ({
  panel,
  edge,
  from,
  to,
}: FoldSide): Pick<GivenFlangeMap, 'on' | 'from' | 'to'> => ({
  on: `${panel} ${edge + 1}`,
  ...(from !== undefined && { from }),
  ...(to !== undefined && { to }),
});

const footOf = ({
  edge,
  from,
  to,
}: FoldSide): Pick<GivenFlangeMap, 'foot' | 'footFrom' | 'footTo'> => ({
  foot: String(edge + 1),
  ...(from !== undefined && { footFrom: from }),
  ...(to !== undefined && { footTo: to }),
});

/** An edge of a plain panel by its name, figures from its left or lower end as it was uncut. */
const onPlain = (
  panel: Panel,
  { edge, from, to }: FoldSide,
  isBase: boolean,
): Pick<GivenFlangeMap, 'on' | 'from' | 'to'> => {
  const side = sideOfPlain(panel, edge) ?? 'bottom';
  const [w, h] = extentsOf(panel.outline);
  const starts = { bottom: [0, 0], right: [w, 0], top: [w, h], left: [0, h] } as const;
  const long = side === 'bottom' || side === 'top' ? w : h;
  const piece = pieceOf(panel.outline, edge);
  const before = dot(sub(piece.from, starts[side]), unit(sub(piece.to, piece.from)));
  const [a, b] = [before + (from ?? 0), before + (to ?? distance(piece.from, piece.to))];
  const isBackwards = side === 'top' || side === 'left';
  const names = isBase ? BASE_NAMES : FLANGE_NAMES;
  return {
    on: `${panel.id} ${names[side]}`,
    ...((a !== 0 || b !== long) &&
      (isBackwards ? { from: long - b, to: long - a } : { from: a, to: b })),
  };
};

const BASE_NAMES = { bottom: 'bottom', right: 'right', top: 'top', left: 'left' } as const;
const FLANGE_NAMES = { bottom: 'foot', right: 'right', top: 'end', left: 'left' } as const;
