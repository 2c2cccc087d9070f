import { along, clip, dot, leftOf, setbackMm, signedArea, sub, unit } from '../../src/template.ts';
import type { CommonValues, HoleSpec, Loop, Vec2, Vertex } from '../../src/template.ts';
import {
  BAFFLE_SIDES,
  type BaffleSection,
  type BaffleSide,
  bendDegOf,
  cornerAt,
  cornerDeg,
  insetCorners,
  tangentMm,
} from './section.ts';

/** What a baffle is asked to be, mm. */
export interface BaffleAsk {
  readonly section: BaffleSection;
  /** What the sizes of the section come from. */
  readonly named: SectionNames;
  readonly flanges: readonly BaffleSide[];
  /** Outside or inside, as the common input `measure` says. */
  readonly flangeMm: number;
  /** To floor, walls and roof alike. */
  readonly clearanceMm: number;
  /**
   * How far the floor corners are cut along both their edges, 0 for not at all; left out, what
   * suits.
   */
  readonly limberMm: number | undefined;
  /** The same at the roof. */
  readonly ventMm: number | undefined;
  readonly flow: FlowAsk;
  /** Least metal round a flow hole; left out, the larger of 2 thicknesses and half its diameter. */
  readonly holeGapMm: number | undefined;
  readonly swage: { readonly run: 'none' | 'upright' | 'level'; readonly widthMm: number };
  /** Holes at given places: up from the floor's left end, from the left wall, size. */
  readonly holes: readonly HoleSpec[];
}

/** An input with what was given for it, mm. */
export interface NamedInput {
  readonly input: string;
  readonly given: number;
}

/** The inputs that a section comes from, as findings name them. */
export interface SectionNames {
  readonly width: NamedInput;
  readonly left: NamedInput;
  readonly right: NamedInput;
  /** Where corners can be rounded. */
  readonly floorRadius?: NamedInput;
  readonly roofRadius?: NamedInput;
  /** Others that its depth depends on. */
  readonly others: readonly string[];
}

/**
 * So many flow holes, or as many as bring the openings to a share of the section; 0 of either for
 * none.
 */
export type FlowAsk =
  | { readonly diameterMm: number; readonly count: number }
  | { readonly diameterMm: number; readonly openPercent: number };

/**
 * How a corner of the plate is made. `cutMm` runs along both edges; without a cut it is rounded by
 * `roundMm`.
 */
export interface PlateCorner {
  readonly angleDeg: number;
  readonly cutMm: number;
  readonly roundMm: number;
  /** How far from the corner the edges leave the tank's rounded corner behind. */
  readonly tangentMm: number;
}

/** The plate of a baffle without its flanges, on mould lines. */
export interface Plate {
  /** Before they are cut or rounded; in the order of `BAFFLE_SIDES`. */
  readonly corners: readonly Vec2[];
  readonly made: readonly PlateCorner[];
  readonly sides: readonly PlateSide[];
}

export interface PlateSide {
  readonly side: BaffleSide;
  readonly hasFlange: boolean;
  readonly bendDeg: number;
  /** Of the outside mould line; 0 where there is no flange. */
  readonly setbackMm: number;
}

/**
 * What a corner is cut when nothing is said: common practice is 20 to 30 mm for flow at the floor,
 * and for air at the roof.
 */
const USUAL_CUT_MM = 25;

export const plateOf = (v: CommonValues, ask: BaffleAsk): Plate => {
  const corners = insetCorners(ask.section, ask.clearanceMm);
  const sides = BAFFLE_SIDES.map((side): PlateSide => {
    const [hasFlange, bendDeg] = [ask.flanges.includes(side), bendDegOf(ask.section, side)];
    return {
      side,
      hasFlange,
      bendDeg,
      setbackMm: hasFlange ? setbackMm(bendDeg, v.insideRadiusMm, v.thicknessMm, 'outside') : 0,
    };
  });
  const bare = corners.map((_, i): PlateCorner => {
    const angleDeg = cornerDeg(corners, i);
    const roundMm = Math.max(
      0,
      (i < 2 ? ask.section.floorRadiusMm : ask.section.roofRadiusMm) - ask.clearanceMm,
    );
    return {
      angleDeg,
      roundMm,
      cutMm: (i < 2 ? ask.limberMm : ask.ventMm) ?? 0,
      tangentMm: tangentMm(roundMm, angleDeg),
    };
  });
  // The two corners at the floor, and those at the roof, are cut alike.
  const usual = (first: number): number =>
    Math.max(USUAL_CUT_MM, ...[first, first + 1].map((i) => leastCutMm(v, bare, sides, i)));
  const made = bare.map((c, i) => ({
    ...c,
    cutMm: i < 2 ? (ask.limberMm ?? usual(0)) : (ask.ventMm ?? usual(2)),
  }));
  return { corners, made, sides };
};

/**
 * A cut has to leave the tank's rounded corner free, and free metal between the bends at its ends.
 */
export const leastCutMm = (
  v: CommonValues,
  made: readonly PlateCorner[],
  sides: readonly PlateSide[],
  i: number,
): number => {
  const { angleDeg, tangentMm: round } = made[i] as PlateCorner;
  const bends = sideAt(sides, i).setbackMm + sideAt(sides, i - 1).setbackMm;
  return Math.max(
    round,
    bends === 0 ? 0 : (bends + v.thicknessMm) / Math.sin((angleDeg * Math.PI) / 180),
  );
};

/** The side whose edge starts at corner `i`. */
export const sideAt = (sides: readonly PlateSide[], i: number): PlateSide =>
  sides[(i + 4) % 4] as PlateSide;

/** How much of the edges at a corner is gone, along each. */
export const goneMm = ({ cutMm, tangentMm: round }: PlateCorner): number =>
  cutMm > 0 ? cutMm : round;

/** The outline; edge `i` of the corners is called by name `i`. */
export const plateOutline = (
  { corners, made }: Pick<Plate, 'corners' | 'made'>,
  names: readonly string[] = BAFFLE_SIDES,
): Loop => {
  const outline: Vertex[] = [];
  for (const [i, corner] of made.entries()) {
    const at = cornerAt(corners, i);
    const gone = goneMm(corner);
    if (gone > 0) {
      const [x, y] = along(at, unit(sub(cornerAt(corners, i - 1), at)), gone);
      // An arc turns by what its corner lacks of a half turn; the bulge is the tangent of a quarter
      // of that.
      const bulge = corner.cutMm > 0 ? 0 : Math.tan(((180 - corner.angleDeg) * Math.PI) / 720);
      outline.push({ x, y, bulge });
    }
    const [x, y] = along(at, unit(sub(cornerAt(corners, i + 1), at)), gone);
    outline.push({ x, y, bulge: 0, edge: names[i] ?? `edge ${i + 1}` });
  }
  return outline;
};

/** What the cuts take out of the plate, mm2. */
export const cutAreaMm2 = (plate: Plate): number => {
  const whole = { ...plate, made: plate.made.map((c) => ({ ...c, cutMm: 0 })) };
  return signedArea(plateOutline(whole)) - signedArea(plateOutline(plate));
};

/** The flat of the plate between the tangent lines of its bends. */
export const flatRegion = (plate: Plate): Loop =>
  plate.sides.reduce<Loop>((loop, { setbackMm: setback }, i) => {
    const at = cornerAt(plate.corners, i);
    const into = leftOf(unit(sub(cornerAt(plate.corners, i + 1), at)));
    const [kept] = clip(loop, into, dot(into, at) + setback, ([x, y]): Vertex => ({
      x,
      y,
      bulge: 0,
    }));
    return kept ?? [];
  }, plateOutline(plate));

/**
 * Where the tangent lines of the bends on both sides of a corner cross, each its setback in from
 * its edge.
 */
export const bendsCross = ({ corners, made, sides }: Plate, i: number): Vec2 => {
  const at = cornerAt(corners, i);
  const sine = Math.sin(((made[i] as PlateCorner).angleDeg * Math.PI) / 180);
  const onward = along(
    at,
    unit(sub(cornerAt(corners, i + 1), at)),
    sideAt(sides, i - 1).setbackMm / sine,
  );
  return along(onward, unit(sub(cornerAt(corners, i - 1), at)), sideAt(sides, i).setbackMm / sine);
};
