import {
  assemble,
  cornerMm,
  defineTemplate,
  edge,
  faceOf,
  figure,
  holeWishes,
  isOver,
  orLess,
  orMore,
  placeHoles,
  polygon,
  rectangle,
  refuse,
  roundFreeCorners,
  setbackMm,
  wish,
} from '../../src/template.ts';
import type { Feature, Finding, Fold, FoldSide, Panel, Wish } from '../../src/template.ts';
import { inputs, type Gusset } from './inputs.ts';

/** Pieces of the base and the upright, and the corners they start at. */
const [BOTTOM, RIGHT, TOP, LEFT] = [0, 1, 2, 3];

/**
 * One whose lengths are all outside ones. `added` is what a thickness added to the given ones, mm.
 */
interface OutsideGusset extends Gusset {
  readonly added: number;
}

/**
 * The same bracket by its outside lengths. Inside ones are taken from the inside of base and
 * upright, and the width between the cheeks, or from the only one to the free edge.
 */
const outsideGusset = (v: Gusset): OutsideGusset => {
  const t = v.measure === 'inside' ? v.thicknessMm : 0;
  return {
    ...v,
    measure: 'outside',
    added: t,
    base: v.base + t,
    upright: v.upright + t,
    gussetDepth: v.gussetDepth + t,
    gussetHeight: v.gussetHeight + t,
    width: v.width + (v.gussetSide === 'both' ? 2 : 1) * t,
  };
};

/** From the outside of the left cheek, where there is one, to where the left end counts from. */
const leftAdded = ({ gussetSide, added }: OutsideGusset): number =>
  gussetSide === 'right' ? 0 : added;

type Side = 'left' | 'right';

/**
 * A shelf bracket: an upright folded up from a base, with triangular cheeks folded up beside it and
 * welded to it.
 */
export default defineTemplate({
  family: 'bracket-gusset',
  summary: 'Shelf bracket: base and upright with triangular cheeks to be welded.',
  sketch: String.raw`
  seen from the left end                     flat
          _
         | |   ^                        +------------+
        /| |   |                        |  upright   |
      /  | | upright          _________ |- - -A- - - | _________
    /    | |   |              \        ||            ||        /
  /______| |   |                \      B|    base    |C      /
  |________/   v                  \____||            ||____/
     base                               |            |
                                        +------------+
  The cheeks run gussetDepth along          width
  the base and gussetHeight up.
`,
  inputs,
  cautions: ['sharp-edges', 'load-bearing', 'weld-heat'],
  examples: [
    {
      title: 'Shelf bracket for the spray tank',
      inputs: {
        name: 'tank-shelf',
        base: 120,
        upright: 140,
        width: 60,
        gussetDepth: 100,
        gussetHeight: 110,
        material: 's235',
        thickness: 3,
        radius: 3,
        holesUpright: '100,30,M10; 125,30,M10',
        holesBase: '70,30,M8',
      },
    },
    {
      title: 'Corner of the tool rack with a cheek on the outer side only, one for each end',
      inputs: {
        name: 'rack-corner',
        base: 60,
        upright: 60,
        width: 40,
        gussetDepth: 45,
        gussetHeight: 45,
        gussetSide: 'left',
        material: 'dc01',
        thickness: 2,
        hand: 'both',
        relief: 'square',
        holesBase: '30,25,6.6',
        holesUpright: '40,25,6.6',
      },
    },
    {
      title: 'Odd on purpose: cheeks as long as the base, with lightening holes, inside dimensions',
      inputs: {
        name: 'winch-rest',
        base: '4in',
        upright: 90,
        width: 150,
        gussetDepth: '4in',
        gussetHeight: 80,
        material: '5754-h111',
        thickness: 3,
        measure: 'inside',
        relief: 'slit',
        holesLeft: '22,30,16',
        holesRight: '22,30,16',
        cornerRadius: 10,
      },
    },
  ],
  build: (given) => {
    const v = outsideGusset(given);
    const findings = impossible(v);
    if (findings.length > 0) return { findings };
    const sides = (['left', 'right'] as const).filter(
      (side) => v.gussetSide === side || v.gussetSide === 'both',
    );
    const base = basePanel(v, sides);
    const upright = uprightPanel(v);
    return {
      part: assemble(v, {
        root: 'base',
        panels: [base.panel, upright.panel, ...sides.map((side) => cheekPanel(v, side))],
        folds: [
          fold(
            v,
            'A',
            { panel: 'base', edge: base.edge(TOP) },
            { panel: 'upright', edge: upright.edge(BOTTOM) },
          ),
          ...sides.map((side) =>
            cheekFold(
              v,
              side,
              base.edge(side === 'left' ? LEFT : RIGHT),
              isRounded(v, sides, side),
            ),
          ),
        ],
        corners: sides.map((side) => ({ folds: ['A', foldId(side)], style: 'butt', through: 'A' })),
        wishes: wishesOf(given, sides),
      }),
      findings: [...base.findings, ...upright.findings],
    };
  },
});

/**
 * What the inputs mean on the bracket, as they were given. The tip of a cheek is cut off beside the
 * upright, so that its height is not there to be measured.
 */
const wishesOf = (given: Gusset, sides: readonly Side[]): Wish[] => {
  const face = (panel: string): Feature => faceOf(panel, 'up', given.measure);
  const end = (side: Side): Feature =>
    sides.includes(side) ? face(`${side} cheek`) : edge('base', side);
  const along = [end('left'), end('right')] as const;
  return [
    wish('base', given.base, edge('base', 'down'), face('upright')),
    wish('upright', given.upright, edge('upright', 'up'), face('base')),
    wish('width', given.width, ...along),
    ...sides.map((side) =>
      wish(
        'gussetDepth',
        given.gussetDepth,
        edge(`${side} cheek`, side === 'left' ? 'left' : 'right'),
        face('upright'),
      ),
    ),
    ...holeWishes('holesBase', given.holesBase, {
      panel: 'base',
      across: [face('upright'), edge('base', 'down')],
      along,
    }),
    ...holeWishes('holesUpright', given.holesUpright, {
      panel: 'upright',
      across: [face('base'), edge('upright', 'up')],
      along,
    }),
    ...sides.flatMap((side) => {
      const input = side === 'left' ? 'holesLeft' : 'holesRight';
      return holeWishes(input, given[input], {
        panel: `${side} cheek`,
        across: [face('base')],
        along: [face('upright')],
      });
    }),
  ];
};

const foldId = (side: Side): string => (side === 'left' ? 'B' : 'C');

/**
 * The knife-sharp tip of the triangle is cut off this high, so that the whole fold has metal to
 * hold.
 */
const noseMm = (v: Gusset): number => v.insideRadiusMm + 2 * v.thicknessMm;

/**
 * What cannot be folded, each with the figure that could. Cheeks mean nothing on legs that are all
 * bend.
 */
function impossible(v: OutsideGusset): Finding[] {
  const legs = (['base', 'upright'] as const).flatMap((input) => allBend(v, input));
  return legs.length > 0 ? legs : cheeks(v);
}

function allBend(v: OutsideGusset, input: 'base' | 'upright'): Finding[] {
  const taken = v.insideRadiusMm + v.thicknessMm;
  if (v[input] > taken) return [];
  const largest = v[input] - 2 * v.thicknessMm;
  const mends = [
    orMore(input, taken + v.thicknessMm - v.added),
    ...(largest >= 0 ? [orLess('radius', largest)] : []),
  ];
  return [
    refuse('leg-too-short', [input], `${input} ${figure(v[input] - v.added)} is all bend`, mends),
  ];
}

function cheeks(v: OutsideGusset): Finding[] {
  const given = (input: 'base' | 'upright' | 'gussetDepth' | 'gussetHeight'): string =>
    `${input} ${figure(v[input] - v.added)}`;
  const findings: Finding[] = [];
  if (isOver(v.gussetDepth, v.base)) {
    findings.push(
      refuse(
        'gusset-too-deep',
        ['gussetDepth', 'base'],
        `${given('gussetDepth')} is more than ${given('base')}`,
        [orLess('gussetDepth', v.base - v.added), orMore('base', v.gussetDepth - v.added)],
      ),
    );
  }
  if (isOver(v.gussetHeight, v.upright)) {
    findings.push(
      refuse(
        'gusset-too-high',
        ['gussetHeight', 'upright'],
        `${given('gussetHeight')} is more than ${given('upright')}`,
        [orLess('gussetHeight', v.upright - v.added), orMore('upright', v.gussetHeight - v.added)],
      ),
    );
  }
  if (v.gussetHeight <= noseMm(v)) {
    findings.push(
      refuse(
        'gusset-too-low',
        ['gussetHeight'],
        `${given('gussetHeight')} leaves no triangle above the bend`,
        [orMore('gussetHeight', noseMm(v) + v.thicknessMm - v.added)],
      ),
    );
  }
  return findings;
}

/** A free corner of the base is rounded unless a cheek reaches it. */
const isRounded = (v: Gusset, sides: readonly Side[], side: Side): boolean =>
  cornerMm(v) > 0 && (!sides.includes(side) || v.gussetDepth < v.base);

/** Across and along as they are measured: to the free edge, and between the cheeks or over them. */
const spans = (v: OutsideGusset, outsideMm: number): readonly [number, number] => [
  outsideMm - v.added,
  v.width - (v.gussetSide === 'both' ? 2 : 1) * v.added,
];

function basePanel(v: OutsideGusset, sides: readonly Side[]) {
  const setback = setbackMm(90, v.insideRadiusMm, v.thicknessMm, 'outside');
  // Beside the end of a cheek's fold there is to be room for its relief.
  const keep = (side: Side): number =>
    sides.includes(side) ? v.gussetDepth + Math.max(v.thicknessMm, v.leastSlotMm) : setback;
  const corners = [
    ...(isRounded(v, sides, 'left') ? [0] : []),
    ...(isRounded(v, sides, 'right') ? [1] : []),
  ];
  const shape = roundFreeCorners('the base', rectangle(0, 0, v.width, v.base), corners, v, [
    0,
    keep('right'),
    0,
    keep('left'),
  ]);
  const cutouts = placeHoles('holesBase', v.holesBase, {
    origin: [leftAdded(v), v.base - v.added],
    across: [0, -1],
    along: [1, 0],
    spanMm: spans(v, v.base),
  });
  const panel: Panel = { id: 'base', outline: shape.outline, cutouts };
  return { ...shape, panel };
}

function uprightPanel(v: OutsideGusset) {
  const setback = setbackMm(90, v.insideRadiusMm, v.thicknessMm, 'outside');
  const shape = roundFreeCorners('the upright', rectangle(0, 0, v.width, v.upright), [2, 3], v, [
    0,
    setback,
    0,
    setback,
  ]);
  const cutouts = placeHoles('holesUpright', v.holesUpright, {
    origin: [leftAdded(v), v.added],
    across: [0, 1],
    along: [1, 0],
    spanMm: spans(v, v.upright),
  });
  const panel: Panel = { id: 'upright', outline: shape.outline, cutouts };
  return { ...shape, panel };
}

/**
 * Its folded edge is piece 0; the corner at the upright lies right on the left cheek and left on
 * the right one.
 */
function cheekPanel(v: OutsideGusset, side: Side): Panel {
  const [depth, height, nose] = [v.gussetDepth, v.gussetHeight, noseMm(v)];
  const id = `${side} cheek`;
  if (side === 'left') {
    const outline = polygon([0, 0], [depth, 0], [depth, height], [0, nose]);
    return {
      id,
      outline,
      cutouts: placeHoles('holesLeft', v.holesLeft, {
        origin: [depth - v.added, v.added],
        across: [0, 1],
        along: [-1, 0],
      }),
    };
  }
  const outline = polygon([0, 0], [depth, 0], [depth, nose], [0, height]);
  return {
    id,
    outline,
    cutouts: placeHoles('holesRight', v.holesRight, {
      origin: [v.added, v.added],
      across: [0, 1],
      along: [1, 0],
    }),
  };
}

const fold = (v: Gusset, id: string, parent: FoldSide, child: FoldSide): Fold => ({
  id,
  parent,
  child,
  angleDeg: 90,
  direction: 'up',
  insideRadiusMm: v.insideRadiusMm,
});

/**
 * The left edge of the base begins at the upright, the right one ends there, shortened where its
 * start is rounded.
 */
function cheekFold(v: Gusset, side: Side, edge: number, rounded: boolean): Fold {
  const end = v.base - (rounded ? cornerMm(v) : 0);
  const stretch =
    side === 'left' ? { from: 0, to: v.gussetDepth } : { from: end - v.gussetDepth, to: end };
  return fold(
    v,
    foldId(side),
    { panel: 'base', edge, ...stretch },
    { panel: `${side} cheek`, edge: 0 },
  );
}
