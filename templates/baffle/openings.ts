import {
  atMost,
  circle,
  clip,
  figure,
  just,
  levelCrossings,
  loopExtents,
  orLess,
  orMore,
  orTry,
  pieceOf,
  placeHoles,
  pointOn,
  refuse,
  scale,
  signedArea,
  wholeUp,
} from '../../src/template.ts';
import type {
  CommonValues,
  Cutout,
  Finding,
  Loop,
  Mend,
  Try,
  Vec2,
  Vertex,
} from '../../src/template.ts';
import { flowHoles, type FlowRoom, MOST_FLOW_HOLES, mostFlowHoles } from './flow.ts';
import {
  type BaffleAsk,
  bendsCross,
  cutAreaMm2,
  flatRegion,
  type Plate,
  type PlateCorner,
  sideAt,
} from './plate.ts';
import { sectionAreaMm2 } from './section.ts';

/** All openings of a baffle. */
export interface Openings {
  readonly cutouts: readonly Cutout[];
  readonly flowCount: number;
  /** Area of flow holes, corner cuts and holes at given places, mm2. */
  readonly areaMm2: number;
  readonly findings: readonly Finding[];
}

export const openingsOf = (v: CommonValues, ask: BaffleAsk, plate: Plate): Openings => {
  const region = flatRegion(plate);
  const placed = placeHoles('holesPanel', ask.holes, {
    thicknessMm: v.thicknessMm,
    origin: [0, 0],
    across: [0, 1],
    along: [1, 0],
  });
  const swage = swageOf(v, ask, region);
  const other = cutAreaMm2(plate) + placed.reduce((sum, c) => sum + areaOf(c), 0);
  const inTheWay = [...placed.map(curveOf), ...reliefs(v, plate)];
  const flow = layOut(
    v,
    ask,
    swage.beside.map((beside) => ({ region: beside, inTheWay, ...gapsOf(v, ask) })),
    other,
  );
  const { diameterMm } = ask.flow;
  const holes = flow.centres.map((centre, i): Cutout => ({
    kind: 'round',
    from: `flow ${i + 1}`,
    inputs: ['holeDiameter'],
    centre,
    diameterMm,
  }));
  return {
    cutouts: [...holes, ...placed, ...swage.marks],
    flowCount: holes.length,
    areaMm2: other + holes.length * discMm2(diameterMm),
    findings: [...swage.findings, ...flow.findings],
  };
};

const discMm2 = (diameterMm: number): number => (Math.PI * diameterMm * diameterMm) / 4;
const curveOf = (c: Cutout): Loop =>
  c.kind === 'round' ? circle(c.centre, c.diameterMm / 2) : c.loop;
const areaOf = (c: Cutout): number =>
  c.kind === 'round' ? discMm2(c.diameterMm) : signedArea(c.loop);

/**
 * Least gaps round flow holes: two thicknesses to a bend or an edge, and half a diameter from hole
 * to hole, are common practice.
 */
const gapsOf = (v: CommonValues, ask: BaffleAsk): Pick<FlowRoom, 'edgeGapMm' | 'holeGapMm'> => {
  const holeGapMm = ask.holeGapMm ?? Math.max(2 * v.thicknessMm, ask.flow.diameterMm / 2);
  return { holeGapMm, edgeGapMm: Math.max(holeGapMm, 2 * v.thicknessMm) };
};

/**
 * Reliefs at corners where two flanges meet; whatever its shape, a relief takes no more than this
 * circle round the crossing of the bends.
 */
const reliefs = (v: CommonValues, plate: Plate): Loop[] =>
  plate.made.flatMap(({ cutMm, angleDeg }: PlateCorner, i) => {
    if (cutMm > 0 || !sideAt(plate.sides, i).hasFlange || !sideAt(plate.sides, i - 1).hasFlange)
      return [];
    const reach =
      (v.insideRadiusMm + v.thicknessMm) *
      Math.max(Math.SQRT2, 1 / Math.sin((angleDeg * Math.PI) / 360));
    return [circle(bendsCross(plate, i), Math.max(reach, v.leastSlotMm))];
  });

interface LaidOut {
  readonly centres: readonly Vec2[];
  readonly findings: readonly Finding[];
}

function layOut(
  v: CommonValues,
  ask: BaffleAsk,
  rooms: readonly FlowRoom[],
  otherMm2: number,
): LaidOut {
  const { diameterMm } = ask.flow;
  const wanted =
    'count' in ask.flow
      ? ask.flow.count
      : holesFor(ask.flow.openPercent, sectionAreaMm2(ask.section), otherMm2, diameterMm);
  const centres = wanted > MOST_FLOW_HOLES ? undefined : flowHoles(rooms, diameterMm, wanted);
  return centres === undefined
    ? { centres: [], findings: [noRoomFor(v, ask, rooms, wanted, otherMm2)] }
    : { centres, findings: [] };
}

/**
 * Finding on flow holes that are too many, or find no room, with the number and size that would
 * fit.
 */
function noRoomFor(
  v: CommonValues,
  ask: BaffleAsk,
  rooms: readonly FlowRoom[],
  wanted: number,
  otherMm2: number,
): Finding {
  const { flow } = ask;
  const { diameterMm } = flow;
  const isCount = 'count' in flow;
  const by = isCount ? 'holeCount' : 'openPercent';
  const asked = isCount
    ? `holeCount ${wanted}`
    : `openPercent ${figure(flow.openPercent)} takes ${wanted} flow ${wanted === 1 ? 'hole' : 'holes'}`;
  const holes = `${asked} of holeDiameter ${figure(diameterMm)}`;
  const none = (what: string, mends: readonly Mend[], ...tries: readonly Try[]): Finding =>
    orTry(refuse('flow-holes-do-not-fit', [by, 'holeDiameter'], what, mends), ...tries);
  if (wanted > MOST_FLOW_HOLES)
    return none(`${holes}, and no more than ${MOST_FLOW_HOLES} are cut`, [
      orMore('holeDiameter', diameterMm * Math.sqrt(wanted / MOST_FLOW_HOLES)),
      ...(isCount ? [orLess(by, MOST_FLOW_HOLES, 0)] : []),
    ]);
  const most = mostFlowHoles(rooms, diameterMm);
  const smaller = (): Mend => orLess('holeDiameter', largestMm(v, ask, rooms, wanted));
  if (most === 0 && isCount) return none(`${holes}, and none finds room`, [smaller()], 'holeGap');
  if (most === 0)
    return none(
      `${holes}, and none finds room`,
      [just('openPercent', 0)],
      { less: 'holeDiameter' },
      'holeGap',
    );
  const fit = `with ${figure(gapsOf(v, ask).holeGapMm)} mm of metal round them (holeGap) at most ${most} fit`;
  if (isCount)
    return none(
      `${holes} find no room, as ${fit}`,
      [orLess('holeCount', most, 0), smaller()],
      'holeGap',
    );
  const share = (100 * (otherMm2 + most * discMm2(diameterMm))) / sectionAreaMm2(ask.section);
  return none(
    `${holes}, and ${fit}, which leave ${atMost(share)} % open`,
    [orLess('openPercent', share, 0)],
    'holeDiameter',
    'holeGap',
  );
}

/** Number of holes that reach the share together with the other openings. */
const holesFor = (
  percent: number,
  sectionMm2: number,
  otherMm2: number,
  diameterMm: number,
): number => Math.max(0, wholeUp(((percent / 100) * sectionMm2 - otherMm2) / discMm2(diameterMm)));

/** The largest diameter at which `count` holes fit, found by halving. */
const largestMm = (
  v: CommonValues,
  ask: BaffleAsk,
  rooms: readonly FlowRoom[],
  count: number,
): number => {
  let [fits, tooLarge] = [0, ask.flow.diameterMm];
  for (let k = 0; k < 14; k++) {
    const diameterMm = (fits + tooLarge) / 2;
    const gaps = gapsOf(v, { ...ask, flow: { diameterMm, count } });
    if (
      flowHoles(
        rooms.map((room) => ({ ...room, ...gaps })),
        diameterMm,
        count,
      ) === undefined
    )
      tooLarge = diameterMm;
    else fits = diameterMm;
  }
  return fits;
};

interface Swage {
  readonly marks: readonly Cutout[];
  /** The plate on either side of the swage; the whole plate without a swage. */
  readonly beside: readonly Loop[];
  readonly findings: readonly Finding[];
}

/**
 * Diameter of a mark: the smallest hole that a cutter makes well is about as wide as the sheet is
 * thick (common practice).
 */
const markMm = (v: CommonValues): number => Math.max(3, v.thicknessMm, v.leastSlotMm);

/**
 * A swage is marked by a small hole at either end of its line, which runs up or across the middle
 * of the plate.
 */
function swageOf(v: CommonValues, { swage }: BaffleAsk, region: Loop): Swage {
  const box = loopExtents(region);
  if (swage.run === 'none' || box === undefined)
    return { marks: [], beside: [region], findings: [] };
  const [isUpright, half] = [swage.run === 'upright', swage.widthMm / 2];
  const [low, high] = isUpright ? [box.minX, box.maxX] : [box.minY, box.maxY];
  const middle = (low + high) / 2;
  const ends = [-half, 0, half].map((off) => across(region, isUpright, middle + off));
  const [from, to] = [Math.max(...ends.map((e) => e[0])), Math.min(...ends.map((e) => e[1]))];
  const inset = 2 * v.thicknessMm + markMm(v) / 2;
  const widest = high - low - 4 * v.thicknessMm;
  if (swage.widthMm > widest || to - from < 2 * inset + 2 * markMm(v)) {
    return {
      marks: [],
      beside: [region],
      findings: [
        orTry(
          refuse(
            'no-room-for-swage',
            ['swage', 'swageWidth'],
            `swage ${swage.run} of swageWidth ${figure(swage.widthMm)} finds no room`,
            [just('swage', 'none')],
          ),
          'swageWidth',
        ),
      ],
    };
  }
  const at = (s: number): Vec2 => (isUpright ? [middle, s] : [s, middle]);
  const marks = [from + inset, to - inset].map((s, i): Cutout => ({
    kind: 'round',
    from: `swage ${i + 1}`,
    centre: at(s),
    diameterMm: markMm(v),
  }));
  const axis: Vec2 = isUpright ? [1, 0] : [0, 1];
  const beside = [1, -1].flatMap((side) =>
    clip(region, scale(axis, side), side * middle + half, ([x, y]): Vertex => ({ x, y, bulge: 0 })),
  );
  return { marks, beside, findings: [] };
}

/** Points at which an upright or a level line enters and leaves the region. */
const across = (region: Loop, isUpright: boolean, level: number): readonly [number, number] => {
  const normal: Vec2 = isUpright ? [1, 0] : [0, 1];
  const found = region.flatMap((_, i) => {
    const piece = pieceOf(region, i);
    return levelCrossings(piece, normal, level).map((t) => pointOn(piece, t)[isUpright ? 1 : 0]);
  });
  return [Math.min(...found), Math.max(...found)];
};
