import type { CommonValues } from '../forms/common.ts';
import type { Measure } from '../model/part.ts';
import { cornerOf, edge, holeWishes, wish } from '../kit/wishes.ts';
import { SAME_LENGTH_MM } from '../geometry/tolerance.ts';
import type { Facing, Feature, Wish } from '../model/wish.ts';
import type { CutPanel } from './cut-panel.ts';
import type { Bend } from './tree.ts';
import { roundTheLoop } from './cut-shape.ts';
import { edgeOf, shapeHeight, shapeWidth } from './shape.ts';

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
    .flatMap((panel) => wishesOf(panel, panels, bends, values));

const BASE_SIDES = { left: 'left', right: 'right', down: 'bottom', up: 'top' } as const;
const FLANGE_SIDES = { left: 'left', right: 'right', down: 'foot', up: 'end' } as const;

function wishesOf(
  panel: CutPanel,
  panels: readonly CutPanel[],
  bends: readonly Bend[],
  values: CommonValues,
): Wish[] {
  const { shape, isBase, entries } = panel;
  const names = isBase ? BASE_SIDES : FLANGE_SIDES;
  const at = (facing: Facing): Feature | undefined =>
    sideOf(panel, names[facing], facing, bends, values.measure, panels);
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
  bends: readonly Bend[],
  measure: Measure,
  panels: readonly CutPanel[],
): Feature | undefined {
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
  if (on !== undefined) return foldAt(on, on.child);
  return isSquare({ shape, outline }, name, facing, bends, panels)
    ? edge(shape.id, facing)
    : undefined;
}

/**
 * By what the proof finds the plane through an edge of a plain panel; a fold along it stands
 * for the line in which its faces meet.
 */
export const featureOf = (
  panel: CutPanel,
  name: string,
  bends: readonly Bend[],
  measure: Measure,
  panels: readonly CutPanel[],
): Feature | undefined => {
  const { shape } = panel;
  if (!shape.isPlain) return undefined;
  const isOn = (bend: Bend): boolean =>
    isOnEdge(bend, shape.id, name) || (bend.child === shape.id && bend.childSide.edge === name);
  const fold = bends.find(isOn);
  if (fold !== undefined) return { kind: 'fold', panel: shape.id, fold: fold.id, measure };
  const sides = Object.entries(panel.isBase ? BASE_SIDES : FLANGE_SIDES) as [Facing, string][];
  const facing = sides.find(([, side]) => side === name)?.[0];
  return facing === undefined ? undefined : sideOf(panel, name, facing, bends, measure, panels);
};

/** What is folded on along an edge, whole or in part, meets its panel in the line of that edge. */
const isOnEdge = ({ parent, parentSide }: Bend, panel: string, edge: string): boolean =>
  parent === panel && parentSide.edge === edge;

/** It runs square to the way it looks, and no neighbour is folded on beside its own foot. */
const isSquare = (
  { shape, outline }: Pick<CutPanel, 'shape' | 'outline'>,
  name: string,
  facing: Facing,
  bends: readonly Bend[],
  panels: readonly CutPanel[],
): boolean => {
  const i = outline.findIndex((vertex) => vertex.edge === name);
  const found = edgeOf(shape, name);
  const [a, b] = [outline[i], outline[(i + 1) % outline.length]];
  if (found === undefined || a === undefined || b === undefined) return false;
  const isUpright = facing === 'left' || facing === 'right';
  const isStraight = isUpright
    ? Math.abs(a.x - b.x) < SAME_LENGTH_MM
    : Math.abs(a.y - b.y) < SAME_LENGTH_MM;
  return isStraight && !(isUpright && isBesideFold({ shape, bends, panels, facing }));
};

/** A flange is cut back where a fold on the next edge round the corner is as near as bends reach. */
const isBesideFold = ({
  shape,
  bends,
  panels,
  facing,
}: {
  readonly shape: CutPanel['shape'];
  readonly bends: readonly Bend[];
  readonly panels: readonly CutPanel[];
  readonly facing: Facing;
}): boolean => {
  const own = bends.find(({ child }) => child === shape.id);
  const parent = panels.find((panel) => panel.shape.id === own?.parent)?.shape;
  if (own === undefined || parent === undefined) return false;
  const { outline } = parent;
  const index = outline.findIndex(({ edge: name }) => name === own.parentSide.edge);
  // A flange runs against the edge that it grows on: its left end lies where the edge ends.
  const isAtEnd = facing === 'left';
  const next = outline[(index + (isAtEnd ? 1 : outline.length - 1)) % outline.length]?.edge;
  const neighbours = bends.filter(
    ({ parent: id, parentSide, child, childSide }) =>
      (id === parent.id && parentSide.edge === next) ||
      (child === parent.id && childSide.edge === next),
  );
  const long = edgeOf(parent, own.parentSide.edge)?.lengthMm ?? 0;
  const [from, to] = roundTheLoop(parent, own.parentSide.edge, own.parentSide.stretch) ?? [0, long];
  const distanceMm = isAtEnd ? long - to : from;
  const reachMm = Math.max(
    0,
    ...neighbours.map(
      ({ insideRadiusMm }) => NEAR_RADII * (insideRadiusMm + own.insideRadiusMm + 1),
    ),
  );
  return neighbours.length > 0 && distanceMm < reachMm;
};

/** Farther off than that, in the radii of both bends, no flange is cut back for another. */
const NEAR_RADII = 3;
