import { teardropProblem } from '../bending/hem.ts';
import type { CommonValues } from '../forms/common.ts';
import { joggleWebMm } from '../kit/joggle.ts';
import { type Finding, refuse } from '../model/finding.ts';
import type { Fold } from '../model/part.ts';
import { atLeast, figure } from '../text/figures.ts';
import type { Folded } from './cut-shape.ts';
import type { Figures, GivenFigure } from './figures.ts';
import type { freeCuts, holeEntries } from './holes.ts';
import type { Flange, Piece } from './piece.ts';
import { flangeShape, type Shape, shapeHeight, shapeWidth } from './shape.ts';

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
  | 'rolled'
  | 'midSurface'
  | 'asked'
> {
  readonly parent: string;
  readonly parentSide: Pick<Folded, 'edge' | 'stretch'>;
  readonly child: string;
  readonly childSide: Pick<Folded, 'edge' | 'stretch'>;
}

/** All panels and folds; a joggle makes two of each. */
export function treeOf(
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
      teardropMm:
        shapeHeight(flange.shape) + (values.measure === 'inside' ? values.thicknessMm : 0),
    }),
    ...(given.hugs === true && { rolled: true as const }),
    ...(given.midSurface === true && { midSurface: true as const }),
    asked: {
      input,
      called: `the fold of ${flange.id}`,
      ...(flange.hasOwnRadius && { hasOwnRadius: true as const }),
    },
  };
};

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
