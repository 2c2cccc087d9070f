import { teardropProblem } from '../bending/hem.ts';
import { setbackMm } from '../bending/setback.ts';
import type { CommonValues } from '../forms/common.ts';
import { wholePart } from '../forms/built.ts';
import type { GivenFold, GivenPart } from '../forms/template.ts';
import type { Loop } from '../geometry/loop.ts';
import { joggleWebMm } from '../kit/joggle.ts';

import { angleWish } from '../kit/wishes.ts';
import { type Finding, refuse } from '../model/finding.ts';
import type { Corner, Cutout, Fold, Panel, Part } from '../model/part.ts';
import type { Wish } from '../model/wish.ts';
import { atLeast, figure } from '../text/figures.ts';
import { cornersOf } from './corners.ts';
import {
  type Folded,
  leftOfEdge,
  notched,
  roundTheLoop,
  sideOn,
  withCornersOff,
} from './cut-shape.ts';
import type { Figures, GivenFigure } from './figures.ts';
import {
  cutoutsOf,
  freeCuts,
  type HoleEntry,
  holeEntries,
  type HolePlan,
  holePlanOf,
} from './holes.ts';
import type { Flange, Piece } from './piece.ts';
import { flangeShape, type Shape, shapeWidth } from './shape.ts';
import { placeInSpace } from './space-holes.ts';
import { panelWishes } from './wishes.ts';

/** What came of a piece: a part, or findings that say why there is none. */
export interface BuiltPiece {
  readonly part?: Part;
  readonly findings: readonly Finding[];
}

/** A panel with what is folded on it, before it is cut. */
export interface Panelled {
  readonly shape: Shape;
  readonly at: string;
  /** `base` or `flanges`, by which findings name the input. */
  readonly input: string;
  readonly given: {
    readonly cornerRadius?: GivenFigure;
    readonly cornerChamfer?: GivenFigure;
    readonly holes?: Parameters<typeof holeEntries>[1];
    readonly cutouts?: Parameters<typeof freeCuts>[1]['cutouts'];
    readonly slits?: string | undefined;
  };
  readonly isBase: boolean;
}

/** A fold to be made, its sides still by the edges of the shapes. */
export interface Bend extends Pick<
  Fold,
  | 'id'
  | 'angleDeg'
  | 'direction'
  | 'insideRadiusMm'
  | 'rule'
  | 'slots'
  | 'teardropMm'
  | 'midSurface'
  | 'asked'
> {
  readonly parent: string;
  readonly parentSide: Pick<Folded, 'edge' | 'stretch'>;
  readonly child: string;
  readonly childSide: Pick<Folded, 'edge' | 'stretch'>;
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
  return withSpaceHoles(made, { panels: whole, bends, flanges, piece }, { figures, values, wrong });
}

/** A panel with its outline cut and its own holes. */
export interface CutPanel extends Panelled {
  readonly outline: Loop;
  readonly cutouts: readonly Cutout[];
  readonly entries: readonly HoleEntry[];
  readonly plan: HolePlan;
  readonly findings: readonly Finding[];
}

/** All panels and folds; a joggle makes two of each. */
function treeOf(
  { base, given }: Piece,
  flanges: readonly Flange[],
  figures: Figures,
  values: CommonValues,
): {
  readonly panels: readonly Panelled[];
  readonly bends: readonly Bend[];
  readonly findings: Finding[];
} {
  const inputOf = (name: string): string => (given.at === '' ? name : 'pieces');
  const panels: Panelled[] = [
    { shape: base, at: `${given.at}base`, input: inputOf('base'), given: given.base, isBase: true },
  ];
  const bends: Bend[] = [];
  const findings: Finding[] = [];
  for (const [i, flange] of flanges.entries()) {
    const input = inputOf('flanges');
    const own: Panelled = {
      shape: flange.shape,
      at: flange.at,
      input,
      given: flange.given,
      isBase: false,
    };
    const id = flange.given.fold ?? letterOf(i);
    const bend = bendOf(flange, id, input, figures, values);
    if (bend === undefined) continue;
    if (flange.joggleMm === undefined) panels.push(own);
    else panels.push({ ...own, shape: webOf(flange, values), given: {} }, own);
    bends.push(...(flange.joggleMm === undefined ? [bend] : joggled(flange, bend)));
    const teardrop = bend.teardropMm;
    if (teardrop !== undefined)
      findings.push(...teardropFlaws(flange, bend, teardrop, input, values));
  }
  return { panels, bends, findings };
}

/** What keeps a hem from being a teardrop. */
const teardropFlaws = (
  { id }: Flange,
  { insideRadiusMm: radiusMm }: Bend,
  depthMm: number,
  input: string,
  { thicknessMm }: CommonValues,
): Finding[] => {
  const problem = teardropProblem({ radiusMm, thicknessMm, depthMm });
  if (problem === undefined) return [];
  return problem === 'no loop'
    ? [
        refuse(
          'no-loop',
          [input],
          `${id} is a teardrop hem of radius ${figure(radiusMm)}, which makes no loop`,
          [],
          'give it a radius, or hemShape flat',
        ),
      ]
    : [
        refuse(
          'hem-too-shallow',
          [input],
          `The height of ${id} is too little for the edge of a teardrop hem of radius ${figure(radiusMm)} to come down on the sheet`,
          [],
          `make it ${atLeast(problem)} mm higher`,
        ),
      ];
};

/** A, B, ... Z, then F27. */
export const letterOf = (i: number): string =>
  i < 26 ? String.fromCharCode('A'.charCodeAt(0) + i) : `F${i + 1}`;

const bendOf = (
  flange: Flange,
  id: string,
  input: string,
  figures: Figures,
  values: CommonValues,
): Bend | undefined => {
  const { given, at } = flange;
  const read = (key: 'slotLength' | 'slotLand', otherwise: number): number | undefined =>
    given[key] === undefined
      ? otherwise
      : figures.read(given[key], `${at}.${key}`, { kind: 'length', least: 0.5, most: 500 });
  const [longestMm, landMm] = [read('slotLength', 50), read('slotLand', 2 * values.thicknessMm)];
  if (longestMm === undefined || landMm === undefined) return undefined;
  return {
    id,
    parent: flange.parent,
    parentSide: { edge: flange.edge, stretch: flange.stretch },
    child: flange.joggleMm === undefined ? flange.id : webName(flange),
    childSide: { edge: flange.foot, stretch: flange.footStretch },
    angleDeg: flange.angleDeg,
    direction: flange.direction,
    insideRadiusMm: flange.radiusMm,
    ...(flange.rule !== undefined && { rule: flange.rule }),
    ...(given.slots === true && {
      slots: { longestMm, landMm, widthMm: values.leastSlotMm, landInput: input },
    }),
    ...(given.hemShape === 'teardrop' && {
      teardropMm: heightOf(flange) + (values.measure === 'inside' ? values.thicknessMm : 0),
    }),
    ...(given.midSurface === true && { midSurface: true as const }),
    asked: {
      input,
      called: `the fold of ${flange.id}`,
      ...(flange.hasOwnRadius && { hasOwnRadius: true as const }),
    },
  };
};

const heightOf = ({ shape }: Flange): number =>
  Math.max(...shape.outline.map(({ y }) => y)) - Math.min(...shape.outline.map(({ y }) => y));

const webName = ({ id }: Flange): string => `${id} web`;

/** The panel between the two folds of a joggle. */
const webOf = (flange: Flange, values: CommonValues): Shape =>
  flangeShape(webName(flange), {
    widthMm: shapeWidth(flange.shape),
    heightMm: joggleWebMm(
      flange.joggleMm ?? 0,
      flange.angleDeg,
      values.thicknessMm,
      values.measure,
    ),
    inLeftMm: 0,
    inRightMm: 0,
  });

/** The second fold turns the metal back. */
const joggled = (flange: Flange, bend: Bend): Bend[] => [
  bend,
  {
    ...bend,
    id: `${bend.id}b`,
    parent: webName(flange),
    parentSide: { edge: 'end', stretch: undefined },
    child: flange.id,
    childSide: { edge: 'foot', stretch: undefined },
    direction: bend.direction === 'up' ? 'down' : 'up',
  },
];

/** What is folded on a panel, on the way round its shape. */
const foldedOn = (shape: Shape, bends: readonly Bend[], values: CommonValues): Folded[] =>
  bends.flatMap((bend): Folded[] => {
    const side =
      bend.parent === shape.id
        ? bend.parentSide
        : bend.child === shape.id
          ? bend.childSide
          : undefined;
    if (side === undefined) return [];
    const { edge } = side;
    return [
      {
        edge,
        stretch: roundTheLoop(shape, edge, side.stretch),
        setbackMm: setbackOf(bend, values),
      },
    ];
  });

const setbackOf = ({ angleDeg, insideRadiusMm, midSurface }: Bend, values: CommonValues): number =>
  midSurface === true ? 0 : setbackMm(angleDeg, insideRadiusMm, values.thicknessMm, values.measure);

function cutPanel(
  panelled: Panelled,
  bends: readonly Bend[],
  figures: Figures,
  values: CommonValues,
): CutPanel | undefined {
  const { shape, given, at, input, isBase } = panelled;
  const folded = foldedOn(shape, bends, values);
  const corners = cornersAsked(panelled, figures, values);
  const cuts = freeCuts(figures, given, at, values.leastSlotMm);
  const plan = holePlanOf(shape, isBase);
  const entries = holeEntries(figures, given.holes, plan, { at, id: shape.id, input });
  if (corners === undefined || cuts === undefined || entries === undefined) return undefined;
  const rounded = withCornersOff(shape, folded, corners);
  const findings = [...rounded.findings];
  let { outline } = rounded;
  const cutouts = entries.flatMap((entry): readonly Cutout[] =>
    entry.kind === 'here'
      ? cutoutsOf(entry, plan, shape.id, input)
      : entry.kind === 'shaped'
        ? [entry.cutout]
        : [],
  );
  for (const [i, loop] of cuts.entries()) {
    const found = notched(shape, outline, loop, folded);
    const name = `${shape.id} cut-out ${i + 1}`;
    if (found.kind === 'notch') outline = found.outline;
    else if (found.kind === 'apart')
      findings.push(
        refuse(
          'panel-cut-apart',
          [input],
          `${name} parts ${shape.id} in two, or leaves nothing of it`,
          [],
          'make it smaller, or describe the rest as pieces of their own',
        ),
      );
    else cutouts.push({ kind: 'loop', from: name, inputs: [input], loop });
  }
  return { ...panelled, outline, cutouts, entries, plan, findings };
}

/** What is taken off the corners of a panel: what it says itself, or what the part says of plain ones. */
const cornersAsked = (
  { shape, given, at }: Panelled,
  figures: Figures,
  values: CommonValues,
): Pick<CommonValues, 'cornerRadiusMm' | 'cornerChamferMm'> | undefined => {
  const { cornerRadius, cornerChamfer } = given;
  if (cornerRadius === undefined && cornerChamfer === undefined)
    return shape.isPlain ? values : { cornerRadiusMm: 0, cornerChamferMm: 0 };
  if (cornerRadius !== undefined && cornerChamfer !== undefined)
    return figures.problem(
      `${at}.cornerChamfer`,
      cornerChamfer,
      'cornerRadius or cornerChamfer, one of the two',
    );
  const limits = { kind: 'length', least: 0, most: 1000 } as const;
  const radius =
    cornerRadius === undefined ? 0 : figures.read(cornerRadius, `${at}.cornerRadius`, limits);
  const chamfer =
    cornerChamfer === undefined ? 0 : figures.read(cornerChamfer, `${at}.cornerChamfer`, limits);
  return radius === undefined || chamfer === undefined
    ? undefined
    : { cornerRadiusMm: radius, cornerChamferMm: chamfer };
};

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
