import { polygon, rectangle } from '../../src/geometry/loop.ts';
import type { Cutout, Fold, Part } from '../../src/model/part.ts';
import { angle, box, fold, panel, part } from '../helpers/parts.ts';

const SOUND = angle(60, 40, 80, 90, 3, 3);
export const square = rectangle(0, 0, 50, 50);

const withFold = (change: Partial<Fold>): Part => ({
  ...SOUND,
  folds: SOUND.folds.map((f) => ({ ...f, ...change })),
});
export const withOutline = (outline: Part['panels'][number]['outline']): Part => ({
  ...SOUND,
  panels: SOUND.panels.map((p) => (p.id === 'leg B' ? { ...p, outline } : p)),
});
const withHole = (hole: Cutout): Part => ({
  ...SOUND,
  panels: SOUND.panels.map((p) => ({ ...p, cutouts: p.id === 'leg B' ? [hole] : [] })),
});
const round = (centre: readonly [number, number], diameterMm: number): Part =>
  withHole({ kind: 'round', from: 'holesB 1', centre, diameterMm });
/** Squares that are folded to each other as named: parent, child. */
const squares = (
  root: string,
  ids: string,
  ...folds: readonly (readonly [string, string])[]
): Part =>
  part(
    [...ids].map((id) => panel(id, square)),
    folds.map(([parent, child], i) =>
      fold(`F${i}`, { panel: parent, edge: 2 }, { panel: child, edge: 0 }),
    ),
    { root },
  );

/**
 * Every way in which a part is none, and what its finding has to name: panel, fold, edge and the
 * mend.
 */
export const WRONG: readonly (readonly [name: string, part: Part, rule: string, says: RegExp])[] = [
  ['no panels', part([], []), 'part-tree', /no panels: give one/],
  [
    'two panels of one name',
    part([panel('a', square), panel('a', square)], []),
    'part-tree',
    /Two panels are called 'a'/,
  ],
  [
    'two folds of one name',
    {
      ...box(60, 40, 20, 90, 3, 3),
      folds: box(60, 40, 20, 90, 3, 3).folds.map((f) => ({ ...f, id: 'F' })),
    },
    'part-tree',
    /Two folds are called 'F'/,
  ],
  [
    'a thickness of nothing',
    { ...SOUND, thicknessMm: 0 },
    'part-figures',
    /0 mm thick: give thicknessMm/,
  ],
  ['a thickness that is no number', { ...SOUND, thicknessMm: NaN }, 'part-figures', /NaN mm thick/],
  ['a gap below nothing', { ...SOUND, cornerGapMm: -1 }, 'part-figures', /cornerGapMm of -1/],
  [
    'a relief that is no number',
    { ...SOUND, relief: { ...SOUND.relief, widthMm: NaN } },
    'part-figures',
    /relief of widthMm NaN/,
  ],
  [
    'an edge that does not exist',
    withFold({ parent: { panel: 'leg A', edge: 7 } }),
    'fold-misfit',
    /^Fold A is on edge 7 of 'leg A', which has edges 0 to 3: name one of these/,
  ],
  [
    'an edge by a name that the panel has not',
    withFold({ parent: { panel: 'leg A', edge: -1, called: 'rear' } }),
    'fold-misfit',
    /^Fold A is on edge 'rear' of 'leg A', which has edges bottom, right, top, left: name one of these/,
  ],
  [
    'an edge by a name that two have',
    {
      ...withFold({ child: { panel: 'leg B', edge: -1, called: 'side' } }),
      panels: SOUND.panels.map((p) => ({
        ...p,
        outline: polygon([0, 0], [80, 0, 'side'], [80, 40], [0, 40, 'side']),
      })),
    },
    'fold-misfit',
    /^Fold A is on edge 'side' of 'leg B', and edges 1 and 3 are called that.*the names are side, side/m,
  ],
  [
    'an edge between two',
    withFold({ child: { panel: 'leg B', edge: 0.5 } }),
    'fold-misfit',
    /edge 0.5 of 'leg B'/,
  ],
  [
    'a fold to an unknown panel',
    withFold({ child: { panel: 'leg C', edge: 0 } }),
    'fold-misfit',
    /^Fold A has the child 'leg C', which is no panel: name one of 'leg A', 'leg B'/,
  ],
  [
    'a fold of a panel to itself',
    withFold({ child: { panel: 'leg A', edge: 0 } }),
    'fold-misfit',
    /joins panel 'leg A' to itself/,
  ],
  [
    'a stretch longer than the edge',
    withFold({ parent: { panel: 'leg A', edge: 2, from: 10, to: 90 } }),
    'fold-misfit',
    /takes edge 2 of 'leg A' from 10 to 90 mm, but it is 80 mm long/,
  ],
  [
    'a stretch that runs backwards',
    withFold({ parent: { panel: 'leg A', edge: 2, from: 60, to: 20 } }),
    'fold-misfit',
    /from 60 to 20 mm.*from before to/,
  ],
  [
    'a stretch that is no number',
    withFold({ parent: { panel: 'leg A', edge: 2, from: NaN } }),
    'fold-misfit',
    /from NaN to 80/,
  ],
  [
    'stretches of two lengths',
    withFold({ parent: { panel: 'leg A', edge: 2, from: 10 } }),
    'fold-misfit',
    /joins 70 mm of edge 2 of 'leg A' to 80 mm of edge 0 of 'leg B': give from and to/,
  ],
  [
    'a fold on an arc',
    withOutline([
      { x: 0, y: 0, bulge: 0.2 },
      { x: 80, y: 0, bulge: 0 },
      { x: 80, y: 40, bulge: 0 },
      { x: 0, y: 40, bulge: 0 },
    ]),
    'fold-misfit',
    /edge 0 of 'leg B', which is an arc/,
  ],
  [
    'two folds on one stretch',
    part(
      [panel('a', square), panel('b', square), panel('c', square)],
      [
        fold('F', { panel: 'a', edge: 2 }, { panel: 'b', edge: 0 }),
        fold('G', { panel: 'a', edge: 2 }, { panel: 'c', edge: 0 }),
      ],
    ),
    'fold-misfit',
    /^Folds F and G both take edge 2 of 'a' from 0 to 50/,
  ],
  [
    'an angle of no number',
    withFold({ angleDeg: NaN }),
    'fold-misfit',
    /^Fold A turns by NaN degrees/,
  ],
  [
    'an angle over the full',
    withFold({ angleDeg: 200 }),
    'fold-misfit',
    /turns by 200 degrees: give 0 to 180/,
  ],
  [
    'an angle below nothing',
    withFold({ angleDeg: -90 }),
    'fold-misfit',
    /turns by -90 degrees.*direction/,
  ],
  [
    'a radius below nothing',
    withFold({ insideRadiusMm: -1 }),
    'fold-misfit',
    /inside radius of -1/,
  ],
  [
    'slots of no length',
    withFold({ slots: { longestMm: 0, landMm: 5, widthMm: 2 } }),
    'fold-misfit',
    /slots of 0 x 2 with lands of 5/,
  ],
  [
    'a root that is no panel',
    squares('x', 'ab', ['a', 'b']),
    'part-tree',
    /root is 'x', which is no panel: name one of 'a', 'b'/,
  ],
  [
    'panels that are not joined',
    squares('a', 'abc', ['a', 'b']),
    'part-tree',
    /Panel 'c' hangs on nothing.*second root beside 'a'/,
  ],
  [
    'two roots, each with its own',
    squares('a', 'abcd', ['a', 'b'], ['c', 'd']),
    'part-tree',
    /Panel 'c' hangs on nothing/,
  ],
  [
    'a root that is a child',
    squares('b', 'ab', ['a', 'b']),
    'part-tree',
    /'b' is the root, and the child of fold F0 too: exchange parent and child/,
  ],
  [
    'folds that go round from the root',
    squares('a', 'abc', ['a', 'b'], ['b', 'c'], ['c', 'a']),
    'part-tree',
    /'a' is the root, and the child of fold F2/,
  ],
  [
    'folds that go round beside the root',
    squares('a', 'abc', ['b', 'c'], ['c', 'b']),
    'part-tree',
    /Panels 'b', 'c' hang on each other in a circle, by folds F0, F1/,
  ],
  [
    'a panel on two folds',
    {
      ...squares('a', 'abc', ['a', 'b'], ['b', 'c']),
      folds: [
        fold('F', { panel: 'a', edge: 1 }, { panel: 'b', edge: 0 }),
        fold('G', { panel: 'a', edge: 2 }, { panel: 'c', edge: 0 }),
        fold('H', { panel: 'b', edge: 2 }, { panel: 'c', edge: 1 }),
      ],
    },
    'part-tree',
    /Panel 'c' is the child of folds G and H/,
  ],
  [
    'a clockwise outline',
    withOutline(polygon([0, 0], [0, 40], [80, 40], [80, 0])),
    'panel-outline',
    /panel 'leg B' runs clockwise: give its points the other way round/,
  ],
  [
    'an outline that crosses itself',
    withOutline(polygon([0, 0], [80, 0], [0, 40], [80, 40])),
    'panel-outline',
    /panel 'leg B' meets itself at 40, 20, where edges 1 and 3/,
  ],
  ['an empty outline', withOutline([]), 'panel-outline', /has 0 points: give three/],
  [
    'an outline of one point',
    withOutline(polygon([0, 0])),
    'panel-outline',
    /has 1 point: give three/,
  ],
  [
    'an outline of a line',
    withOutline(polygon([0, 0], [80, 0])),
    'panel-outline',
    /has 2 points: give three/,
  ],
  [
    'a point twice',
    withOutline(polygon([0, 0], [80, 0], [80, 0], [80, 40], [0, 40])),
    'panel-outline',
    /points 1 and 2 in one place, 80, 0: leave one out/,
  ],
  [
    'the first point again as the last',
    withOutline(polygon([0, 0], [80, 0], [80, 40], [0, 40], [0, 0])),
    'panel-outline',
    /points 4 and 0 in one place/,
  ],
  [
    'a point that is no number',
    withOutline(polygon([0, 0], [80, NaN], [80, 40], [0, 40])),
    'panel-outline',
    /point 1 at 80, NaN/,
  ],
  [
    'a bulge without end',
    withOutline([
      { x: 0, y: 0, bulge: 0 },
      { x: 80, y: 0, bulge: Infinity },
      { x: 80, y: 40, bulge: 0 },
    ]),
    'panel-outline',
    /point 1 at 80, 0 with bulge Infinity/,
  ],
  [
    'an arc that is none',
    withOutline([
      { x: 0, y: 0, bulge: 0 },
      { x: 80, y: 0, bulge: 1e-9 },
      { x: 80, y: 40, bulge: 0 },
    ]),
    'panel-outline',
    /arc on edge 1 of bulge 1e-9.*give bulge 0/,
  ],
  [
    'a point beyond any part',
    withOutline(polygon([0, 0], [2e5, 0], [80, 40])),
    'panel-outline',
    /point 1 at 200000, 0 .*none beyond 100000/,
  ],
  [
    'a hole that is nowhere',
    round([20, NaN], 6),
    'hole-outline',
    /^Hole holesB 1 \(1 of 1\) in panel 'leg B' has its centre at 20, NaN/,
  ],
  ['a hole of no number', round([20, 20], NaN), 'hole-outline', /diameterMm of NaN/],
  ['a hole of nothing', round([20, 20], 0), 'hole-outline', /diameterMm of 0: give more than 0/],
  [
    'a cut-out that crosses itself',
    withHole({
      kind: 'loop',
      from: 'window',
      loop: polygon([10, 10], [30, 10], [10, 30], [30, 30]),
    }),
    'hole-outline',
    /^Hole window .* meets itself at 20, 20/,
  ],
  [
    'a cut-out of two points',
    withHole({ kind: 'loop', from: 'window', loop: polygon([10, 10], [30, 10]) }),
    'hole-outline',
    /has 2 points/,
  ],
  [
    'a wish on a panel that there is not',
    {
      ...SOUND,
      wishes: [
        {
          kind: 'length',
          input: 'legA',
          mm: 60,
          between: [
            { kind: 'edge', panel: 'leg A', facing: 'down' },
            { kind: 'face', panel: 'leg C', face: 'lower' },
          ],
        },
      ],
    },
    'part-wish',
    /Input legA is to be measured on panel 'leg C', which does not exist: name one of 'leg A', 'leg B'/,
  ],
  [
    'a wish at a fold that there is not',
    {
      ...SOUND,
      wishes: [
        {
          kind: 'length',
          input: 'legA',
          mm: 60,
          between: [
            { kind: 'edge', panel: 'leg A', facing: 'down' },
            { kind: 'fold', panel: 'leg A', fold: 'B', measure: 'outside' },
          ],
        },
      ],
    },
    'part-wish',
    /at fold B, which does not exist: name one of A/,
  ],
  [
    'a wish of no number',
    {
      ...SOUND,
      wishes: [{ kind: 'angle', input: 'bendAngle', deg: NaN, panels: ['leg A', 'leg B'] }],
    },
    'part-wish',
    /value of input bendAngle on the part is NaN/,
  ],
  [
    'a corner of a fold that there is not',
    { ...SOUND, corners: [{ folds: ['A', 'B'], style: 'open' }] },
    'part-tree',
    /The corner of folds A and B: there is no fold B; there are A/,
  ],
  [
    'a corner of one fold',
    { ...SOUND, corners: [{ folds: ['A', 'A'], style: 'open' }] },
    'part-tree',
    /is of one fold/,
  ],
  [
    'a butt corner through neither',
    {
      ...box(60, 40, 20, 90, 3, 3),
      corners: [{ folds: ['F0', 'F1'], style: 'butt', through: 'F2' }],
    },
    'part-tree',
    /through 'F2': say which of the two/,
  ],
  [
    'a corner gap below nothing',
    { ...box(60, 40, 20, 90, 3, 3), corners: [{ folds: ['F0', 'F1'], style: 'open', gapMm: -1 }] },
    'part-tree',
    /gapMm of -1/,
  ],
];
