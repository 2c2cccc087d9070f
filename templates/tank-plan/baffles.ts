import {
  advise,
  angleWish,
  assemble,
  diameterWish,
  edge,
  faceOf,
  figure,
  lengthOfEdge,
  NOISE_DEG,
  reachOf,
  rectangle,
  refuse,
  SAME_LENGTH_MM,
  wish,
} from '../../src/template.ts';
import type {
  Finding,
  GivenFold,
  Loop,
  Panel,
  Piece,
  Pose,
  Vec3,
  Wish,
} from '../../src/template.ts';
import { MOST_BAFFLES, tooManyBaffles } from '../baffle/bay-limits.ts';
import { flowOf } from './baffle-flow.ts';
import { cutCorners, meetInPlane, type PlateEdge, plateEdge } from './baffle-plate.ts';
import { TOP_HOLES } from './fittings.ts';
import type { TankPlan } from './inputs.ts';
import type { Sheet } from './panels.ts';
import { bodyOf, type Shape } from './planes.ts';
import { type Section, sectionsOf } from './section.ts';
import { bayLengths, flangeMm, type Stations, stationsOf } from './stations.ts';

/** The baffles of a tank and where they stand, with what is wrong with them. */
export interface PlanBaffles {
  readonly stations: Stations;
  readonly pieces: readonly Piece[];
  readonly findings: readonly Finding[];
}

const UP: Vec3 = [0, 0, 1];

/** Frame of a baffle: plumb, the face its flanges grow from at z = 0, seen with its flanges towards one. */
const frameAt = (axis: 0 | 1, at: number): Pose =>
  axis === 0
    ? { o: [at, 0, 0], x: [0, 1, 0], y: UP, z: [1, 0, 0] }
    : { o: [0, at, 0], x: [-1, 0, 0], y: UP, z: [0, 1, 0] };

/**
 * Baffles across the plan, each fitted to the section where it stands: flanges on the floor and on
 * the sides lie along these at whatever angle they meet it, and stay off them by baffleGap.
 */
export const planBaffles = (
  v: TankPlan,
  shape: Shape,
  sheet: Sheet,
  shell: readonly string[],
): PlanBaffles => {
  const stations = stationsOf(v, shape, sheet);
  const body = bodyOf(shape);
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
  const made = stations.atMm.flatMap((at, i) => {
    const frame = frameAt(stations.axis, at);
    const sections = sectionsOf(body, frame);
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
      ...holesOnBaffles(v, stations),
    ],
  };
};

const longBays = (v: TankPlan, stations: Stations): Finding[] => {
  const longest = Math.max(...bayLengths(stations, v.thicknessMm));
  return longest <= v.longestBay + SAME_LENGTH_MM
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
const holesOnBaffles = (v: TankPlan, { axis, atMm }: Stations): Finding[] =>
  ([...TOP_HOLES, 'drain'] as const).flatMap((input) =>
    v[input].flatMap((hole) => {
      const at = axis === 0 ? hole.acrossMm : hole.alongMm;
      const reach = reachOf(hole.shape, v.thicknessMm);
      // Its flange lies on the floor; at the top there is the plate alone.
      const more = input === 'drain' ? Math.max(v.thicknessMm, flangeMm(v)) : v.thicknessMm;
      const i = atMm.findIndex((station) => at + reach > station && at - reach < station + more);
      const station = atMm[i];
      return station === undefined
        ? []
        : [
            advise(
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
  const flow = flowOf(v, id, edges, corners, outline, section);
  if ('finding' in flow) return { findings: [flow.finding] };
  const root: Panel = { id: 'baffle', outline, cutouts: flow.cutouts };
  const flanged = edges.filter(({ hasFlange }) => hasFlange);
  const part = assemble(
    { ...v, measure: 'outside' },
    {
      root: 'baffle',
      panels: [root, ...flanged.map((e) => flangePanel(v, e, outline))],
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

const flangePanel = (v: TankPlan, edge: PlateEdge, outline: Loop): Panel => ({
  id: flangeName(edge),
  outline: rectangle(0, 0, lengthOfEdge(outline, edge.edge.facet), flangeMm(v)),
  cutouts: [],
});

const flangeFold = (v: TankPlan, edge: PlateEdge, i: number): GivenFold => ({
  id: String.fromCharCode(65 + i),
  parent: { panel: 'baffle', edge: edge.edge.facet },
  child: { panel: flangeName(edge), edge: 'bottom' },
  angleDeg: edge.bendDeg,
  direction: 'up',
  insideRadiusMm: v.insideRadiusMm,
});

const cutsMeet = (id: string): Finding =>
  refuse(
    'corner-cuts-meet',
    ['limber', 'vent', 'longestBay'],
    `the corners that are cut off ${id} leave nothing of an edge between them`,
    [],
    'give less for limber and vent, or no baffle there',
  );
