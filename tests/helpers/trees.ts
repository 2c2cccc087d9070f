import { type Loop, polygon, rectangle } from '../../src/geometry/loop.ts';
import type { Part } from '../../src/model/part.ts';
import { angle, box, fold, panel, part, prism } from './parts.ts';

/**
 * Folded parts that break naive flattening, each with a name that says why. The sheet is 3 mm
 * unless they say otherwise.
 */
export const TREES: readonly { readonly name: string; readonly part: Part }[] = [
  { name: 'fold lines that are not parallel', part: fan() },
  { name: 'slanted edge folded up, its neighbour down', part: slanted() },
  { name: 'flange narrower than its edge, in the middle', part: narrow(30, 70) },
  { name: 'flange narrower than its edge, at its end', part: narrow(0, 40) },
  { name: 'flange that leaves a tab too narrow to keep', part: narrow(2, 70) },
  { name: 'flange on a flange on a flange, changing direction', part: chain() },
  { name: 'hem round a corner', part: box(100, 60, 12, 180, 0.5, 1) },
  { name: 'hem of no radius', part: box(100, 60, 12, 180, 0, 1) },
  { name: 'bend of 1 degree', part: angle(60, 40, 80, 1, 3, 3) },
  { name: 'bend of 179 degrees', part: angle(60, 40, 80, 179, 3, 3) },
  { name: 'bend of 179 degrees down', part: angle(60, 40, 80, 179, 3, 3, 'down') },
  { name: 'inside radius 0', part: angle(60, 40, 80, 90, 0, 3) },
  { name: 'box of inside radius 0', part: box(100, 60, 40, 90, 0, 2) },
  { name: 'box', part: box(100, 60, 40, 90, 3, 3) },
  { name: 'box of 1 degree', part: box(100, 60, 40, 1, 2, 2) },
  { name: 'box past square', part: box(100, 80, 30, 120, 2, 2) },
  { name: 'hexagon with flared walls past square', part: prism(6, 60, 40, 5, 60, 2, 2) },
  { name: 'triangle with tapered walls', part: prism(3, 120, 40, -10, 100, 2, 2) },
  { name: 'octagon', part: prism(8, 40, 20, 0, 30, 2, 2) },
  { name: 'arc next to a fold', part: arcNext(0.3) },
  { name: 'hollow arc next to a fold', part: arcNext(-0.3) },
  { name: 'rounded corner running into a fold', part: tangentArc() },
  { name: 'half round plate folded on its flat', part: halfRound() },
  { name: 'child wider than its edge', part: wide() },
  { name: 'two folds on one line with a gap', part: twoOnOneLine() },
  { name: 'flanges on both sides of an inner corner', part: innerCorner() },
  { name: 'tray with lips turned in', part: tray('up') },
  { name: 'tray with lips turned out', part: tray('down') },
  { name: 'lip on one of two walls', part: oneLip() },
  { name: 'lip on the side of a flange narrower than its edge', part: sideLip('up') },
  { name: 'lip turned out on the side of such a flange', part: sideLip('down') },
  { name: 'turn above an edge that is folded down itself', part: turnAbove(90) },
  { name: 'turn above an edge that is folded down by 62 degrees', part: turnAbove(62) },
  { name: 'chamfer swallowed by two bends', part: chamfered() },
  { name: 'inside dimensions', part: { ...box(100, 60, 40, 90, 3, 3), measure: 'inside' } },
];

/** Four walls of a frustum folded one on the next: slanted folds, none parallel to the next. */
function fan(): Part {
  const wall = polygon([0, 0], [80, 0], [65, 60], [15, 60]);
  const walls = [0, 1, 2, 3].map((i) => panel(`wall ${i}`, wall));
  const folds = [0, 1, 2].map((i) =>
    fold(
      `F${i}`,
      { panel: `wall ${i}`, edge: 1 },
      { panel: `wall ${i + 1}`, edge: 3 },
      85,
      'up',
      2,
    ),
  );
  return part(walls, folds, { thicknessMm: 1.5 });
}

function slanted(): Part {
  const base = polygon([0, 0], [100, 0], [100, 50], [60, 80], [0, 80]);
  return part(
    [
      panel('base', base),
      panel('slant', rectangle(0, 0, 50, 30)),
      panel('top', rectangle(0, 0, 60, 25)),
      panel('side', rectangle(0, 0, 50, 30)),
    ],
    [
      fold('S', { panel: 'base', edge: 2 }, { panel: 'slant', edge: 0 }, 90, 'up', 3),
      fold('T', { panel: 'base', edge: 3 }, { panel: 'top', edge: 0 }, 60, 'down', 2),
      fold('E', { panel: 'base', edge: 1 }, { panel: 'side', edge: 0 }, 45, 'down', 4),
    ],
  );
}

function narrow(from: number, to: number): Part {
  return part(
    [panel('plate', rectangle(0, 0, 100, 60)), panel('flange', rectangle(0, 0, to - from, 30))],
    [fold('A', { panel: 'plate', edge: 2, from, to }, { panel: 'flange', edge: 0 })],
  );
}

function chain(): Part {
  const steps = [
    [90, 'up'],
    [45, 'down'],
    [120, 'up'],
    [30, 'down'],
  ] as const;
  const panels = [
    panel('p0', rectangle(0, 0, 60, 40)),
    ...steps.map((_, i) => panel(`p${i + 1}`, rectangle(0, 0, 60, 35))),
  ];
  return part(
    panels,
    steps.map(([a, d], i) =>
      fold(`F${i}`, { panel: `p${i}`, edge: 2 }, { panel: `p${i + 1}`, edge: 0 }, a, d, 2 + i),
    ),
    { thicknessMm: 2 },
  );
}

/** A plate whose right side next to the folded edge is an arc. */
function arcNext(bulge: number): Part {
  const plate: Loop = [
    { x: 0, y: 0, bulge: 0 },
    { x: 80, y: 0, bulge },
    { x: 80, y: 60, bulge: 0 },
    { x: 0, y: 60, bulge: 0 },
  ];
  return part(
    [panel('plate', plate), panel('flange', rectangle(0, 0, 80, 30))],
    [fold('A', { panel: 'plate', edge: 2 }, { panel: 'flange', edge: 0 })],
  );
}

/** A fillet that runs tangent into the folded edge. */
function tangentArc(): Part {
  const quarter = Math.tan(Math.PI / 8);
  const plate: Loop = [
    { x: 0, y: 0, bulge: 0 },
    { x: 80, y: 0, bulge: 0 },
    { x: 80, y: 45, bulge: quarter },
    { x: 65, y: 60, bulge: 0 },
    { x: 0, y: 60, bulge: 0 },
  ];
  return part(
    [panel('plate', plate), panel('flange', rectangle(0, 0, 65, 30))],
    [fold('A', { panel: 'plate', edge: 3 }, { panel: 'flange', edge: 0 })],
  );
}

function halfRound(): Part {
  const plate: Loop = [
    { x: 0, y: 0, bulge: 0 },
    { x: 80, y: 0, bulge: 1 },
  ];
  return part(
    [panel('plate', plate), panel('flange', rectangle(0, 0, 80, 30))],
    [fold('A', { panel: 'plate', edge: 0 }, { panel: 'flange', edge: 0 })],
  );
}

function wide(): Part {
  return part(
    [panel('plate', rectangle(0, 0, 60, 50)), panel('flange', rectangle(0, 0, 90, 40))],
    [fold('A', { panel: 'plate', edge: 2 }, { panel: 'flange', edge: 0, from: 15, to: 75 })],
  );
}

function twoOnOneLine(): Part {
  return part(
    [
      panel('plate', rectangle(0, 0, 120, 60)),
      panel('left', rectangle(0, 0, 40, 30)),
      panel('right', rectangle(0, 0, 50, 25)),
    ],
    [
      fold(
        'L',
        { panel: 'plate', edge: 2, from: 80, to: 120 },
        { panel: 'left', edge: 0 },
        90,
        'up',
      ),
      fold(
        'R',
        { panel: 'plate', edge: 2, from: 10, to: 60 },
        { panel: 'right', edge: 0 },
        90,
        'down',
      ),
    ],
  );
}

function innerCorner(): Part {
  const plate = polygon([0, 0], [100, 0], [100, 40], [40, 40], [40, 100], [0, 100]);
  return part(
    [
      panel('plate', plate),
      panel('a', rectangle(0, 0, 60, 20)),
      panel('b', rectangle(0, 0, 60, 20)),
    ],
    [
      fold('A', { panel: 'plate', edge: 2 }, { panel: 'a', edge: 0 }, 90, 'up', 2),
      fold('B', { panel: 'plate', edge: 3 }, { panel: 'b', edge: 0 }, 90, 'up', 2),
    ],
    { thicknessMm: 2 },
  );
}

/** A tray with lips: `up` lips turn in over it, `down` ones turn out. */
function tray(lips: 'up' | 'down'): Part {
  const base = box(120, 80, 30, 90, 2, 1.5);
  const sides = [120, 80, 120, 80];
  return {
    ...base,
    panels: [...base.panels, ...sides.map((s, i) => panel(`lip ${i}`, rectangle(0, 0, s, 12)))],
    folds: [
      ...base.folds,
      ...sides.map((_, i) =>
        fold(`L${i}`, { panel: `wall ${i}`, edge: 2 }, { panel: `lip ${i}`, edge: 0 }, 90, lips, 2),
      ),
    ],
  };
}

function oneLip(): Part {
  const base = box(120, 80, 30, 90, 2, 1.5);
  return {
    ...base,
    panels: [...base.panels, panel('lip', rectangle(0, 0, 120, 12))],
    folds: [
      ...base.folds,
      fold('L', { panel: 'wall 0', edge: 2 }, { panel: 'lip', edge: 0 }, 90, 'up', 2),
    ],
  };
}

/** The plate runs on beside the flange, and is not cut for what stands on its side. */
function sideLip(direction: 'up' | 'down'): Part {
  return part(
    [
      panel('plate', rectangle(0, 0, 120, 80)),
      panel('ear', rectangle(0, 0, 40, 30)),
      panel('lip', rectangle(0, 0, 30, 12)),
    ],
    [
      fold('A', { panel: 'plate', edge: 2, from: 40, to: 80 }, { panel: 'ear', edge: 0 }),
      fold('B', { panel: 'ear', edge: 3 }, { panel: 'lip', edge: 0 }, 90, direction, 2),
    ],
    { thicknessMm: 2 },
  );
}

/** A wall's turn stands over an edge of the base that has a fold of its own, the other way. */
function turnAbove(angleDeg: number): Part {
  return part(
    [
      panel('base', rectangle(0, 0, 120, 80)),
      panel('wall', rectangle(0, 0, 80, 45)),
      panel('turn', rectangle(0, 0, 45, 20)),
      panel('toe', rectangle(0, 0, 120, 30)),
    ],
    [
      fold('A', { panel: 'base', edge: 3 }, { panel: 'wall', edge: 0 }),
      fold('B', { panel: 'base', edge: 2 }, { panel: 'toe', edge: 0 }, angleDeg, 'down'),
      fold('C', { panel: 'wall', edge: 1 }, { panel: 'turn', edge: 0 }),
    ],
  );
}

/** The chamfer is so small that the two tangent lines cross before they reach it. */
function chamfered(): Part {
  const plate = polygon([0, 0], [80, 0], [80, 57], [77, 60], [0, 60]);
  return part(
    [
      panel('plate', plate),
      panel('a', rectangle(0, 0, 57, 20)),
      panel('b', rectangle(0, 0, 77, 20)),
    ],
    [
      fold('A', { panel: 'plate', edge: 1 }, { panel: 'a', edge: 0 }),
      fold('B', { panel: 'plate', edge: 3 }, { panel: 'b', edge: 0 }),
    ],
  );
}
