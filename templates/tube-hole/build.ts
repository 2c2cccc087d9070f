import {
  assemble,
  type Built,
  type Cutout,
  diameterWish,
  distance,
  edge,
  type Feature,
  figure,
  type Finding,
  isUnder,
  note,
  orTry,
  polygon,
  type PolygonPoint,
  refuse,
  roundFreeCorners,
  wholeDown,
  type Wish,
  wish,
} from '../../src/template.ts';
import { axisMm, halfHole, openHole, panelMm, pointsRound } from './hole.ts';
import { patchReport } from './report.ts';
import type { TubeHolePatch } from './inputs.ts';

/** The patch: its point shows the way in which the tube leans, its notches the lines to lay it on. */
export function tubeHolePatch(v: TubeHolePatch): Built {
  const crowded = punchesMeet(v);
  if (crowded.length > 0) return { findings: crowded };
  const cutouts = v.form === 'hole' ? [openHole(v)] : punchHoles(v);
  const shape = roundFreeCorners('the patch', polygon(...patchOutline(v)), SQUARE_CORNERS, v);
  return {
    part: assemble(v, {
      root: 'patch',
      panels: [{ id: 'patch', outline: shape.outline, cutouts }],
      folds: [],
      wishes: patchWishes(v),
    }),
    findings: [...shape.findings, wayNote(v)],
    report: patchReport(v),
  };
}

/** Half the width and the depth of the notches that are laid on scribed lines. */
const NOTCH_MM = 4;

/** The four corners of the rectangle, as the outline counts its points. */
const SQUARE_CORNERS = [0, 4, 8, 12];

const sizesOf = (
  v: TubeHolePatch,
): { readonly wide: number; readonly high: number; readonly point: number } => {
  const [half, reach] = halfHole(v);
  const [wide, high] = [half + v.margin, reach + v.margin];
  // The point rises at 45 degrees over the middle half of the edge.
  return { wide, high, point: wide / 2 };
};

/**
 * A rectangle with a point at its upper edge and notches on the axes: below on the line that the
 * tube leans along, on either side on the level where its axis meets this face.
 */
const patchOutline = (v: TubeHolePatch): readonly PolygonPoint[] => {
  const { wide, high, point } = sizesOf(v);
  const [n, axis] = [NOTCH_MM, axisMm(v)];
  return [
    [-wide, -high],
    [-n, -high],
    [0, n - high],
    [n, -high],
    [wide, -high],
    [wide, axis - n],
    [wide - n, axis],
    [wide, axis + n],
    [wide, high],
    [point, high],
    [0, high + point],
    [-point, high],
    [-wide, high],
    [-wide, axis + n],
    [n - wide, axis],
    [-wide, axis - n],
  ];
};

const punchHoles = (v: TubeHolePatch): Cutout[] => {
  const places = [[0, 0] as const, ...pointsRound(v, v.punches).map(([, at]) => at)];
  return places.map((centre, i) => ({
    kind: 'round',
    from: i === 0 ? 'middle' : `punch ${i}`,
    inputs: i === 0 ? ['tube'] : ['punches'],
    centre,
    diameterMm: v.punchHole,
  }));
};

/** Small holes that run into each other, or into the one in the middle. */
const punchesMeet = (v: TubeHolePatch): Finding[] => {
  if (v.form !== 'punch') return [];
  const all = pointsRound(v, v.punches).map(([, at]) => at);
  const gaps = all.flatMap((at, i) => [
    distance(at, all[(i + 1) % all.length] as typeof at),
    Math.hypot(...at),
  ]);
  const land = v.punchHole + Math.max(v.leastSlotMm, 1);
  const least = Math.min(...gaps);
  if (!isUnder(least, land)) return [];
  const fewer = wholeDown((v.punches * least) / land);
  const meet = refuse(
    'tube-hole-punches-meet',
    ['punches', 'punchHole'],
    `punches ${v.punches} of punchHole ${figure(v.punchHole)} run into each other on the hole of this tube`,
    [],
    'give fewer or smaller ones',
  );
  return [orTry(meet, ...(fewer >= 4 ? ['punches'] : []), 'punchHole')];
};

const patchWishes = (v: TubeHolePatch): Wish[] => {
  const { wide, high } = sizesOf(v);
  const middle: Feature = {
    kind: 'hole',
    panel: 'patch',
    from: v.form === 'hole' ? 'tube 1' : 'middle',
  };
  return [
    wish(
      'tube + 2 clear + 2 grommet + 2 margin',
      2 * wide,
      edge('patch', 'left'),
      edge('patch', 'right'),
    ),
    wish('margin + panelThickness, with half the hole', high, middle, edge('patch', 'down')),
    ...(v.form === 'punch' ? [diameterWish('punchHole', v.punchHole, 'patch', 'punch 1')] : []),
  ];
};

const wayNote = (v: TubeHolePatch): Finding =>
  note(
    'tube-hole-way',
    v.lean === 0
      ? 'The tube stands square to the panel, and its hole is round: the point of the patch means nothing.'
      : `Lay the patch on the face that the tube comes out of, its point the way in which the tube leans there. Its axis meets that face of the panel of ${figure(panelMm(v))} on the line between the notches at the sides, ${figure(axisMm(v))} from the middle of the hole, and the other face as far on the other side.`,
  );
