import type { Folder, Machine, PressBrake } from '../../src/model/machine.ts';
import type { Flat } from './replay-solid-convex.ts';

/**
 * A body of a machine: convex polygons of its section, counter-clockwise; they overlap where they
 * join.
 */
export interface MachineBody {
  readonly name: 'bed' | 'leaf' | 'beam' | 'fingers' | 'clamp' | 'punch' | 'ram' | 'die';
  /** Whether it stands only where the step says. */
  readonly inPlaces: boolean;
  /** As it stands on flat sheet. */
  readonly sections: readonly (readonly Flat[])[];
  /** Where a point of it is later; absent: where it was. */
  readonly later?: (moment: Moment) => (p: Flat) => Flat;
}

/** The sheet between the tools. */
export interface Sheet {
  readonly thicknessMm: number;
  readonly insideRadiusMm: number;
  /** The angle that the stroke is for, without what springs back. */
  readonly angleDeg: number;
}

/** A moment of a stroke. */
export interface Moment {
  /** How far the leaf has turned, or the metal is bent over the V. */
  readonly deg: number;
  /** How far the punch's tip stands over the line in which the outside faces of the legs meet. */
  readonly tipMm: number;
}

const box = (left: number, low: number, right: number, high: number): Flat[] => [
  [left, low],
  [right, low],
  [right, high],
  [left, high],
];
const moved = (polygon: readonly Flat[], dx: number, dy: number): Flat[] =>
  polygon.map(([x, y]) => [x + dx, y + dy]);
const tan = (deg: number): number => Math.tan((deg * Math.PI) / 180);

/** The bodies of a machine, out of its dimensions alone. */
export const bodiesOf = (machine: Machine, sheet: Sheet): readonly MachineBody[] =>
  machine.kind === 'folder' ? folderBodies(machine, sheet) : brakeBodies(machine);

/**
 * How far bed, ram and die reach away from the sheet, and the beam up: farther than any part that
 * is replayed.
 */
const FAR_MM = 300;
const BEAM_MM = 120;

/**
 * The nose is sharp and stands on the sheet where the bend begins: sheet and inside radius behind
 * the hinge at 90 degrees, nearer at less, farther at more.
 */
const folderBodies = (
  m: Folder,
  { thicknessMm: t, insideRadiusMm: r, angleDeg }: Sheet,
): readonly MachineBody[] => {
  if (m.section !== undefined) throw new Error(`${m.id} is given as polygons`);
  const [depth, front, edge] = [
    m.noseDepthMm.value,
    m.noseFrontMm.value,
    m.isLeafBarFitted.value ? m.leafEdgeMm.value.barFitted : m.leafEdgeMm.value.barRemoved,
  ];
  const bevel = front * tan(m.noseBevelDeg.value);
  const { projection, startsBelow, endsBelow } = m.stiffenerMm.value;
  const onSheet = (polygon: readonly Flat[]): Flat[] =>
    moved(polygon, -(t + r) * tan(angleDeg / 2), t);
  const nose: Flat[] = [
    [-depth, 0],
    [0, 0],
    [-front, bevel],
    [-depth, bevel],
  ];
  const over =
    m.clamp.kind === 'one piece'
      ? []
      : [
          box(
            -m.clamp.beamDepthMm.value,
            m.clamp.boxDepthMm.value,
            -front,
            m.clamp.boxDepthMm.value + BEAM_MM,
          ),
        ];
  return [
    { name: 'bed', inPlaces: false, sections: [box(-m.bedDepthMm.value, -FAR_MM, 0, 0)] },
    {
      name: 'leaf',
      inPlaces: false,
      sections: [box(0, -endsBelow, edge, 0), box(0, -endsBelow, projection, -startsBelow)],
      later: turned,
    },
    { name: 'beam', inPlaces: false, sections: over.map(onSheet) },
    {
      name: m.clamp.kind === 'one piece' ? 'clamp' : 'fingers',
      inPlaces: true,
      sections: [nose, box(-depth, 0, -front, m.clampHeightMm.value)].map(onSheet),
    },
  ];
};

const turned = ({ deg }: Moment): ((p: Flat) => Flat) => {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  return ([x, y]) => [c * x - s * y, s * x + c * y];
};

/**
 * The straight punch in one piece, its wedge and its shank; another one in the pieces that its data
 * gives.
 */
const punchOf = (m: PressBrake, high: number): readonly Flat[][] => {
  const pieces = m.punches.find((p) => p.id === m.punch)?.section(high) ?? [];
  if (m.punch !== 'straight') return pieces.map((piece) => piece.map(([x, y]): Flat => [x, y]));
  const corners = pieces.flat();
  const wide = Math.max(...corners.map(([x]) => x));
  const wideAt = Math.min(...corners.filter(([x]) => x === wide).map(([, y]) => y));
  return [
    [
      [0, 0],
      [wide, wideAt],
      [wide, high],
      [-wide, high],
      [-wide, wideAt],
    ],
  ];
};

/**
 * The legs lie on the shoulders of the V, and the die comes up with them; punch and ram are drawn
 * with the tip at the origin.
 */
const brakeBodies = (m: PressBrake): readonly MachineBody[] => {
  const [half, deep, holder, high] = [
    m.vMm.value / 2,
    m.dieHeightMm.value,
    m.dieHolderHalfMm.value,
    m.punchHeightMm.value,
  ];
  const outer = half + m.shoulderMm.value;
  const withSheet =
    ({ deg }: Moment): ((p: Flat) => Flat) =>
    ([x, y]) => [x, y + half * tan(deg / 2)];
  const withTip =
    ({ tipMm }: Moment): ((p: Flat) => Flat) =>
    ([x, y]) => [x, y + tipMm];
  const ram = m.ramHalfMm.value;
  return [
    {
      name: 'ram',
      inPlaces: false,
      sections: [box(-ram, high, ram, high + FAR_MM)],
      later: withTip,
    },
    {
      name: 'die',
      inPlaces: false,
      sections: [
        box(half, -deep - 1, outer, 0),
        box(-outer, -deep - 1, -half, 0),
        box(-holder, -deep - FAR_MM, holder, -deep),
      ],
      later: withSheet,
    },
    { name: 'punch', inPlaces: true, sections: punchOf(m, high), later: withTip },
  ];
};
