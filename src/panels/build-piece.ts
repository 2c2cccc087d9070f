import { wholePart } from '../forms/built.ts';
import type { CommonValues } from '../forms/common.ts';
import type { GivenFold, GivenPart } from '../forms/template.ts';
import { angleWish } from '../kit/wishes.ts';
import { type Finding, refuse } from '../model/finding.ts';
import type { Corner, Panel, Part } from '../model/part.ts';
import type { Wish } from '../model/wish.ts';
import { figure } from '../text/figures.ts';
import { cornersOf } from './corners.ts';
import { type CutPanel, cutPanel } from './cut-panel.ts';
import { type Folded, leftOfEdge, roundTheLoop, sideOn } from './cut-shape.ts';
import type { Figures } from './figures.ts';
import type { Flange, Piece } from './piece.ts';
import { placeInSpace } from './space-holes.ts';
import { type Bend, treeOf } from './tree.ts';
import { trimmedAway } from './trimmed-away.ts';
import { panelWishes } from './wishes.ts';

/** What came of a piece: a part, or findings that say why there is none. */
export interface BuiltPiece {
  readonly part?: Part;
  readonly findings: readonly Finding[];
}

/**
 * The part of a blank whose figures are known. Problems with holes and cut-outs go to `figures`;
 * then there is neither a part nor a finding.
 */
export function buildPiece(piece: Piece, figures: Figures, values: CommonValues): BuiltPiece {
  const joined = cornersOf(piece, figures, values);
  if (joined === undefined) return { findings: [] };
  const { flanges, corners } = joined;
  const { panels, bends, findings } = treeOf(piece, flanges, figures, values);
  const cut = panels.map((panelled) => cutPanel(panelled, bends, figures, values));
  const wrong = [...findings, ...cut.flatMap((c) => c?.findings ?? [])];
  if (cut.includes(undefined) || wrong.some(({ severity }) => severity === 'stop'))
    return { findings: wrong };
  const whole = cut as readonly CutPanel[];
  const folds = foldsOf(bends, whole);
  if ('findings' in folds) return { findings: [...wrong, ...folds.findings] };
  const made = assembled(piece, { panels: whole, folds: folds.folds, corners, bends }, values);
  const trimmed = trimmedAway(made, whole, bends);
  if (trimmed.length > 0) return { findings: [...wrong, ...trimmed] };
  return withSpaceHoles(made, { panels: whole, bends, flanges, piece }, { figures, values, wrong });
}

/** The folds by the edges of the cut outlines, or what a notch or a corner left no room for. */
const foldsOf = (
  bends: readonly Bend[],
  panels: readonly CutPanel[],
): { readonly folds: readonly GivenFold[] } | { readonly findings: readonly Finding[] } => {
  const findings: Finding[] = [];
  const folds = bends.flatMap((bend): GivenFold[] => {
    const { parent, child, parentSide, childSide, ...rest } = bend;
    const [one, other] = [sideIn(panels, parent, parentSide), sideIn(panels, child, childSide)];
    for (const [id, side, { edge }] of [
      [parent, one, parentSide],
      [child, other, childSide],
    ] as const)
      if (side === undefined) findings.push(noRoom(panels, id, edge, bend.child));
    return one === undefined || other === undefined ? [] : [{ ...rest, parent: one, child: other }];
  });
  return findings.length > 0 ? { findings } : { folds };
};

const sideIn = (
  panels: readonly CutPanel[],
  id: string,
  { edge, stretch }: Pick<Folded, 'edge' | 'stretch'>,
): GivenFold['parent'] | undefined => {
  const panel = panels.find(({ shape }) => shape.id === id);
  if (panel === undefined) return undefined;
  const { shape, outline } = panel;
  const side = sideOn(shape, outline, { edge, stretch: roundTheLoop(shape, edge, stretch) });
  return side === undefined ? undefined : { panel: id, ...side };
};

const noRoom = (panels: readonly CutPanel[], id: string, edge: string, child: string): Finding => {
  const { shape, outline, input } = panels.find((p) => p.shape.id === id) as CutPanel;
  const left = leftOfEdge(shape, outline, edge).map((s) => roundTheLoop(shape, edge, s) ?? s);
  const free =
    left.length === 0
      ? 'there is nothing left of that edge'
      : `what is left of that edge runs ${left.map(([a, b]) => `from ${figure(a)} to ${figure(b)}`).join(' and ')}`;
  return refuse(
    'flange-off-edge',
    [input],
    `${child} grows on ${edge} of ${id} where a notch or a corner was cut off: ${free}`,
    [],
    'give from and to within that, a flange for each stretch',
  );
};

interface Joined {
  readonly panels: readonly CutPanel[];
  readonly folds: readonly GivenFold[];
  readonly corners: readonly Corner[];
  readonly bends: readonly Bend[];
}

const assembled = (
  { base, given }: Piece,
  { panels, folds, corners, bends }: Joined,
  values: CommonValues,
): Part => {
  const order = given.order ?? [];
  const place = (id: string): number => (order.includes(id) ? order.indexOf(id) : order.length);
  const tree: GivenPart = {
    root: base.id,
    panels: panels
      .map(({ shape, outline, cutouts }): Panel => ({ id: shape.id, outline, cutouts }))
      .toSorted((a, b) => place(a.id) - place(b.id)),
    folds,
    ...(corners.length > 0 && { corners }),
    wishes: bends.map((bend) =>
      angleWish(`${bend.child}.angle`, bend.angleDeg, bend.parent, bend.child),
    ),
  };
  return wholePart(tree, values);
};

/** The same part with the holes whose places are on the finished part, and with what its inputs mean. */
function withSpaceHoles(
  part: Part,
  parts: {
    readonly panels: readonly CutPanel[];
    readonly bends: readonly Bend[];
    readonly flanges: readonly Flange[];
    readonly piece: Piece;
  },
  {
    figures,
    values,
    wrong,
  }: {
    readonly figures: Figures;
    readonly values: CommonValues;
    readonly wrong: readonly Finding[];
  },
): BuiltPiece {
  const findings = [...wrong];
  const wishes: Wish[] = [
    ...(part.wishes ?? []),
    ...panelWishes(parts.panels, parts.bends, values),
  ];
  const panels = part.panels.map((panel): Panel => {
    const own = parts.panels.find(({ shape }) => shape.id === panel.id) as CutPanel;
    const placed = placeInSpace(own, { part, panels: parts.panels, bends: parts.bends, figures });
    findings.push(...placed.findings);
    wishes.push(...placed.wishes);
    return { ...panel, cutouts: [...panel.cutouts, ...placed.cutouts] };
  });
  return { part: { ...part, panels, wishes }, findings };
}
