import type { CommonValues } from '../forms/common.ts';
import { cornerOf, edge, holeWishes, wish } from '../kit/wishes.ts';
import type { Loop } from '../geometry/loop.ts';
import { SAME_LENGTH_MM } from '../geometry/tolerance.ts';
import type { Facing, Feature, Wish } from '../model/wish.ts';
import type { CutPanel } from './cut-panel.ts';
import type { Bend } from './tree.ts';
import { type Folding, isCutBack } from './cut-back.ts';
import { shapeHeight, shapeWidth } from './shape.ts';

/**
 * What the figures of plain panels are on the finished part: heights and widths from what they were
 * measured from, holes from there. Those of outlines are what the panels themselves are asked for.
 */
export const panelWishes = (
  panels: readonly CutPanel[],
  bends: readonly Bend[],
  values: CommonValues,
): Wish[] =>
  panels
    .filter(({ shape }) => shape.isPlain)
    .flatMap((panel) => wishesOf(panel, { panels, bends, sheet: values }));

const BASE_SIDES = { left: 'left', right: 'right', down: 'bottom', up: 'top' } as const;
const FLANGE_SIDES = { left: 'left', right: 'right', down: 'foot', up: 'end' } as const;

function wishesOf(panel: CutPanel, folding: Folding): Wish[] {
  const { shape, isBase, entries } = panel;
  const names = isBase ? BASE_SIDES : FLANGE_SIDES;
  const at = (facing: Facing): Feature | undefined => sideOf(panel, names[facing], facing, folding);
  const [left, right, down, up] = (['left', 'right', 'down', 'up'] as const).map(at);
  const both = (
    name: string,
    mm: number,
    one: Feature | undefined,
    other: Feature | undefined,
  ): Wish[] =>
    one === undefined || other === undefined ? [] : [wish(`${shape.id}.${name}`, mm, one, other)];
  const specs = entries.flatMap((entry) => (entry.kind === 'here' ? entry.specs : []));
  // Holes of a base count x first, those of a flange count up from its foot first.
  const [across, along] = isBase
    ? ([
        [left, right],
        [down, up],
      ] as const)
    : ([
        [down, up],
        [left, right],
      ] as const);
  const ordinary = specs.filter(({ axes }) => isBase || axes[0].from !== 'x');
  return [
    ...both(isBase ? 'depth' : 'height', shapeHeight(shape), down, up),
    ...both('width', shapeWidth(shape), left, right),
    ...holeWishes(`${shape.id} holes`, ordinary, { panel: shape.id, across, along }),
  ];
}

/**
 * What is found at a side of a panel: what is folded on there, or else its free edge. Nothing where
 * a side leans, or is cut back for a neighbour.
 */
function sideOf(
  { shape, outline }: CutPanel,
  name: string,
  facing: Facing,
  folding: Folding,
): Feature | undefined {
  const { bends } = folding;
  const { measure } = folding.sheet;
  const own = bends.find(({ child, childSide }) => child === shape.id && childSide.edge === name);
  const foldAt = (bend: Bend, beyond: string): Feature =>
    bend.midSurface === true || bend.teardropMm !== undefined
      ? { kind: 'fold', panel: shape.id, fold: bend.id, measure }
      : cornerOf(
          shape.id,
          { fold: bend.id, angleDeg: bend.angleDeg, direction: bend.direction, beyond },
          measure,
        );
  if (own !== undefined) return foldAt(own, own.parent);
  const on = bends.find((bend) => isOnEdge(bend, shape.id, name));
  // A length to an edge that leans is none from one side to the other.
  if (on !== undefined)
    return isUprightOrLevel(shape.outline, name) ? foldAt(on, on.child) : undefined;
  return isSquare({ shape, outline }, name) && !isCutBack(shape, name, folding)
    ? edge(shape.id, facing)
    : undefined;
}

/**
 * By what the proof finds the plane through an edge of a plain panel; a fold along it stands
 * for the line in which its faces meet.
 */
export const featureOf = (panel: CutPanel, name: string, folding: Folding): Feature | undefined => {
  const { shape } = panel;
  const { bends } = folding;
  const { measure } = folding.sheet;
  if (!shape.isPlain) return undefined;
  const isOn = (bend: Bend): boolean =>
    isOnEdge(bend, shape.id, name) || (bend.child === shape.id && bend.childSide.edge === name);
  const fold = bends.find(isOn);
  if (fold !== undefined) return { kind: 'fold', panel: shape.id, fold: fold.id, measure };
  const sides = Object.entries(panel.isBase ? BASE_SIDES : FLANGE_SIDES) as [Facing, string][];
  const facing = sides.find(([, side]) => side === name)?.[0];
  return facing === undefined ? undefined : sideOf(panel, name, facing, folding);
};

/** What is folded on along an edge, whole or in part, meets its panel in the line of that edge. */
const isOnEdge = ({ parent, parentSide }: Bend, panel: string, edge: string): boolean =>
  parent === panel && parentSide.edge === edge;

/** It runs square to the way it looks: all of it, and what is left of it where it was cut. */
const isSquare = ({ shape, outline }: Pick<CutPanel, 'shape' | 'outline'>, name: string): boolean =>
  isUprightOrLevel(shape.outline, name) && isUprightOrLevel(outline, name);

const isUprightOrLevel = (outline: Loop, name: string): boolean => {
  const i = outline.findIndex((vertex) => vertex.edge === name);
  const [a, b] = [outline[i], outline[(i + 1) % outline.length]];
  if (a === undefined || b === undefined) return false;
  const [dx, dy] = [Math.abs(a.x - b.x), Math.abs(a.y - b.y)];
  return Math.min(dx, dy) < SAME_LENGTH_MM && Math.max(dx, dy) > LEAST_EDGE_MM;
};

/** From what is left of a shorter edge, mm, nothing is measured. */
const LEAST_EDGE_MM = 1;
