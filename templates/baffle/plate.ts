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

/** Request for a baffle, mm. */
export interface BaffleAsk {
  readonly section: BaffleSection;
  /** The inputs that give the sizes of the section. */
  readonly named: SectionNames;
  readonly flanges: readonly BaffleSide[];
  /** Height of the flanges, outside or inside, as the common input `measure` says. */
  readonly flangeMm: number;
  /** Clearance to floor, walls and roof alike. */
  readonly clearanceMm: number;
  /**
   * How far the floor corners are cut along both their edges, 0 for no cut; a suitable cut when
   * left out.
   */
  readonly limberMm: number | undefined;
  /** The same for the corners at the roof. */
  readonly ventMm: number | undefined;
  readonly flow: FlowAsk;
  /**
   * Smallest strip of metal round a flow hole; when left out, the larger of 2 thicknesses and half
   * its diameter.
   */
  readonly holeGapMm: number | undefined;
  readonly swage: { readonly run: 'none' | 'upright' | 'level'; readonly widthMm: number };
  /**
   * Holes at given places: distance up from the floor's left end, distance from the left wall,
   * size.
   */
  readonly holes: readonly HoleSpec[];
}

/** An input and the value that was given for it, mm. */
export interface NamedInput {
  readonly input: string;
  readonly given: number;
}

/** The inputs that give a section, as findings name them. */
export interface SectionNames {
  readonly width: NamedInput;
  readonly left: NamedInput;
  readonly right: NamedInput;
  /** The radii, where corners can be rounded. */
  readonly floorRadius?: NamedInput;
  readonly roofRadius?: NamedInput;
  /** Further inputs on which its depth depends. */
  readonly others: readonly string[];
}

/**
 * A number of flow holes, or as many as bring the openings to a share of the section; 0 of either
 * means none.
 */
export type FlowAsk =
  | { readonly diameterMm: number; readonly count: number }
  | { readonly diameterMm: number; readonly openPercent: number };

/**
 * How a corner of the plate is shaped. `cutMm` runs along both edges; without a cut it is rounded
 * by `roundMm`.
 */
export interface PlateCorner {
  readonly angleDeg: number;
  readonly cutMm: number;
  readonly roundMm: number;
  /** Distance from the corner at which the edges touch the tank's rounded corner. */
  readonly tangentMm: number;
}

/** The plate of a baffle without its flanges, on mould lines. */
export interface Plate {
  /** Corners before they are cut or rounded, in the order of `BAFFLE_SIDES`. */
  readonly corners: readonly Vec2[];
  readonly made: readonly PlateCorner[];
  readonly sides: readonly PlateSide[];
}

export interface PlateSide {
  readonly side: BaffleSide;
  readonly hasFlange: boolean;
  readonly bendDeg: number;
  /** Setback of the outside mould line; 0 where there is no flange. */
  readonly setbackMm: number;
}

/**
 * Cut of a corner when none is given: common practice is 20 to 30 mm, for flow at the floor and for
 * air at the roof.
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
 * Least cut of a corner: it has to clear the tank's rounded corner, and leave free metal between
 * the bends at its ends.
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

/** Length of the edges that is gone at a corner, along each. */
export const goneMm = ({ cutMm, tangentMm: round }: PlateCorner): number =>
  cutMm > 0 ? cutMm : round;

/** The outline; edge `i` of the corners bears name `i`. */
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
      // of that turn.
      const bulge = corner.cutMm > 0 ? 0 : Math.tan(((180 - corner.angleDeg) * Math.PI) / 720);
      outline.push({ x, y, bulge });
    }
    const [x, y] = along(at, unit(sub(cornerAt(corners, i + 1), at)), gone);
    outline.push({ x, y, bulge: 0, edge: names[i] ?? `edge ${i + 1}` });
  }
  return outline;
};

/** Area that the cuts take off the plate, mm2. */
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
 * Point where the tangent lines of the bends on both sides of a corner cross; each lies its setback
 * in from its edge.
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
