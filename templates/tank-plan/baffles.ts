import {
  advise,
  angleWish,
  assemble,
  cross3,
  diameterWish,
  dot3,
  edge,
  faceOf,
  figure,
  lengthOfEdge,
  NOISE_DEG,
  NOISE_MM,
  pieceOf,
  polygon,
  reachOf,
  rectangle,
  refuse,
  SAME_LENGTH_MM,
  scale3,
  selfCrossing,
  sub3,
  unit3,
  wish,
} from '../../src/template.ts';
import type { Finding, GivenFold, Loop, Panel, Piece, Pose, Wish } from '../../src/template.ts';
import { MOST_BAFFLES, tooManyBaffles } from '../baffle/bay-limits.ts';
import { flowOf } from './baffle-flow.ts';
import { type BafflePlane, bafflePlanes, beyondBaffleMm } from './baffle-planes.ts';
import { cutCorners, meetInPlane, type PlateEdge, plateEdge } from './baffle-plate.ts';
import { TOP_HOLES } from './fittings.ts';
import type { TankPlan } from './inputs.ts';
import { point, type Sheet } from './panels.ts';
import { type Shape } from './planes.ts';
import type { BaffleLine } from './room.ts';
import type { Section } from './section.ts';
import { bayLengths, flangeMm, type Stations, stationsOf } from './stations.ts';

/** The baffles of a tank and where they stand, with what is wrong with them. */
export interface PlanBaffles {
  readonly stations: Stations;
  readonly pieces: readonly Piece[];
  readonly findings: readonly Finding[];
}

/**
 * Baffles across the plan, each fitted to the section where it stands: flanges on the floor and on
 * the sides lie along these at whatever angle they meet it, and stay off them by baffleGap.
 */
export const planBaffles = (
  v: TankPlan,
  shape: Shape,
  sheet: Sheet,
  shell: readonly string[],
  lines: readonly BaffleLine[],
): PlanBaffles => {
  const stations = stationsOf(v, shape, sheet);
  const many = stations.atMm.length >= MOST_BAFFLES;
  if (many)
    return {
      stations,
      pieces: [],
      findings: [
        tooManyBaffles(
          'outline',
          { ...v, clearance: v.baffleGap },
          stations.toMm - stations.fromMm,
          stations.atMm.length,
          MOST_BAFFLES - 1,
        ),
      ],
    };
  const planes = bafflePlanes(shape, stations, lines);
  const made = planes.flatMap(({ frame, sections }, i) => {
    return sections.map((section, k) => {
      const name = `baffle-${i + 1}${sections.length > 1 ? String.fromCharCode(97 + k) : ''}`;
      return baffleOf(v, name, frame, section, shell);
    });
  });
  return {
    stations,
    pieces: made.flatMap(({ piece }) => (piece === undefined ? [] : [piece])),
    findings: [
      ...made.flatMap(({ findings }) => findings),
      ...longBays(v, stations),
      ...holesOnBaffles(v, stations, planes),
    ],
  };
};

const longBays = (v: TankPlan, stations: Stations): Finding[] => {
  const longest = Math.max(...bayLengths(stations, v.thicknessMm));
  return v.baffleLines !== undefined || longest <= v.longestBay + SAME_LENGTH_MM
    ? []
    : [
        advise(
          'bay-longer',
          ['longestBay', 'outline'],
          `a bay of ${figure(longest)} is longer than longestBay ${figure(v.longestBay)}, since no baffle stands at a corner of the plan`,
          [{ input: 'longestBay', atLeast: Math.ceil(longest * 100) / 100 }],
        ),
      ];
};

/** Holes in top and floor through which a baffle or its flange would be seen. */
const holesOnBaffles = (
  v: TankPlan,
  { atMm }: Stations,
  planes: readonly BafflePlane[],
): Finding[] =>
  ([...TOP_HOLES, 'drain'] as const).flatMap((input) =>
    v[input].flatMap((hole) => {
      const reach = reachOf(hole.shape, v.thicknessMm);
      // Its flange lies on the floor; at the top there is the plate alone.
      const more = input === 'drain' ? Math.max(v.thicknessMm, flangeMm(v)) : v.thicknessMm;
      const beyond = planes.map((plane) =>
        beyondBaffleMm(plane.frame, [hole.acrossMm, hole.alongMm]),
      );
      const i = beyond.findIndex((mm) => mm + reach > 0 && mm - reach < more);
      if (i < 0) return [];
      const station = atMm[i];
      const moves = [-reach, more + reach].map((mm) => mm - (beyond[i] as number));
      return [
        station === undefined
          ? advise(
              'hole-on-baffle',
              [input, 'baffleLines'],
              `hole ${hole.number} of ${input} lies on baffle ${i + 1}`,
              [],
              `move it ${figure(-(moves[0] as number))} to the left of line ${i + 1}, or ${figure(moves[1] as number)} to its right`,
            )
          : advise(
              'hole-on-baffle',
              [input, 'longestBay'],
              `hole ${hole.number} of ${input} lies on baffle ${i + 1}, which stands from ${v.bafflesAcross} ${figure(station)} to ${figure(station + more)}`,
              [],
              `give ${v.bafflesAcross} ${figure(station - reach)} or less, or ${figure(station + more + reach)} or more`,
            ),
      ];
    }),
  );

const baffleOf = (
  v: TankPlan,
  id: string,
  frame: Pose,
  section: Section,
  shell: readonly string[],
): { readonly piece?: Piece; readonly findings: readonly Finding[] } => {
  const edges = section.map((each) => plateEdge(v, frame, each));
  const corners = edges.map((each, i) => meetInPlane(edges.at(i - 1) as PlateEdge, each));
  const outline = cutCorners(v, edges, corners);
  if (outline === undefined) return { findings: [cutsMeet(id)] };
  const beside = (i: number): readonly [PlateEdge, PlateEdge] => [
    edges[(i + 1) % edges.length] as PlateEdge,
    edges.at(i - 1) as PlateEdge,
  ];
  const flow = flowOf(v, id, edges, corners, outline, section);
  if ('finding' in flow) return { findings: [flow.finding] };
  const flanges = edges.flatMap((e, i) =>
    e.hasFlange ? [flangePanel(v, e, beside(i), frame, outline)] : [],
  );
  if (flanges.some(({ outline: own }) => selfCrossing(own) !== undefined))
    return { findings: [cutsMeet(id)] };
  const root: Panel = { id: 'baffle', outline, cutouts: flow.cutouts };
  const flanged = edges.filter(({ hasFlange }) => hasFlange);
  const part = assemble(
    { ...v, measure: 'outside' },
    {
      root: 'baffle',
      panels: [root, ...flanges],
      folds: flanged.map((e, i) => flangeFold(v, e, i)),
      wishes: baffleWishes(v, flanged, flow.cutouts.length > 0),
    },
  );
  return {
    piece: {
      id,
      part,
      standing: { poses: [frame], turn: 3, weldedTo: shell },
    },
    findings: [],
  };
};

/** What the inputs mean on a baffle: how its flanges lean, how wide they are, and its holes. */
const baffleWishes = (v: TankPlan, flanged: readonly PlateEdge[], hasHoles: boolean): Wish[] => [
  ...flanged.flatMap((e): Wish[] => [
    angleWish('floor and outline where it stands', e.bendDeg, 'baffle', flangeName(e)),
    // Only of one that is square is the width a distance from a face.
    ...(Math.abs(e.bendDeg - 90) < NOISE_DEG
      ? [wish('flange', v.flange, edge(flangeName(e), 'up'), faceOf('baffle', 'up', v.measure))]
      : []),
  ]),
  ...(hasHoles ? [diameterWish('holeDiameter', v.holeDiameter, 'baffle', 'flow 1')] : []),
];

const flangeName = ({ edge }: PlateEdge): string => `${edge.facet} flange`;

/**
 * A flange, as long as its edge of the plate; where the facet beside an end leans over it, as one does
 * that meets the plate aslant, it is cut back there to stay the gap off that.
 */
const flangePanel = (
  v: TankPlan,
  flanged: PlateEdge,
  beside: readonly [PlateEdge, PlateEdge],
  frame: Pose,
  outline: Loop,
): Panel => {
  const { facet, normal } = flanged.edge;
  const index = outline.findIndex((vertex) => vertex.edge === facet);
  const { from, to } = pieceOf(outline, index);
  const run = unit3(sub3(point(frame, to), point(frame, from)));
  const away = unit3(cross3(run, normal));
  const out = dot3(away, frame.z) < 0 ? scale3(away, -1) : away;
  // Folded, its left end is where its edge of the plate ends.
  const [left, right] = ([to, from] as const).map((end, i) => {
    const { edge: near } = beside[i] as PlateEdge;
    const inwards = (i === 0 ? -1 : 1) * dot3(near.normal, run);
    const sheet = v.thicknessMm * Math.max(0, -dot3(near.normal, normal));
    const free =
      dot3(near.normal, sub3(point(frame, end), point(frame, near.from))) +
      flangeMm(v) * dot3(near.normal, out);
    const lacking = v.baffleGap + sheet - free;
    // Beside an edge that points into the tank nothing stands.
    return inwards <= 0 || lacking <= NOISE_MM ? 0 : lacking / inwards;
  }) as [number, number];
  const long = lengthOfEdge(outline, facet);
  const high = flangeMm(v);
  return {
    id: flangeName(flanged),
    outline:
      left === 0 && right === 0
        ? rectangle(0, 0, long, high)
        : polygon(
            [0, 0, 'bottom'],
            [long, 0, 'right'],
            [long - right, high, 'top'],
            [left, high, 'left'],
          ),
    cutouts: [],
  };
};

const flangeFold = (v: TankPlan, edge: PlateEdge, i: number): GivenFold => ({
  id: String.fromCharCode(65 + i),
  parent: { panel: 'baffle', edge: edge.edge.facet },
  child: { panel: flangeName(edge), edge: 'bottom' },
  angleDeg: edge.bendDeg,
  direction: 'up',
  insideRadiusMm: v.insideRadiusMm,
});

export const cutsMeet = (id: string, place = 'longestBay'): Finding =>
  refuse(
    'corner-cuts-meet',
    ['limber', 'vent', place],
    `the corners that are cut off ${id} leave nothing of an edge between them`,
    [],
    `give less for limber and vent, or a ${place} that puts no baffle there`,
  );
