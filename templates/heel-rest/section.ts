import { cosDeg, sinDeg } from '../../src/template.ts';
import { highEnd, lowEnd, type Place, setbackOf, wedgeDeg } from './sizes.ts';
import type { HeelRest } from './inputs.ts';
import { type Bend, type Leg, legsOf, type OpenLeg } from './legs.ts';

/** One end of the tread: its legs, from the tread outwards. */
export interface End {
  readonly place: Place;
  readonly legs: readonly Leg[];
  /** Distance from the end of the tread as it is measured to the tangent line of its bend. */
  readonly setbackMm: number;
  /** Height over the floor of the tread's lower face at that tangent line. */
  readonly tangentMm: number;
  /**
   * How far along the floor all of this reaches from that tangent line, faces and rounds included.
   */
  readonly reachMm: number;
  /**
   * The leg that stands on the floor, of a riser or a stop folded double: its number, and the place
   * where its lower face begins.
   */
  readonly standing?: Standing;
}

export interface Standing {
  readonly index: number;
  /** Angle by which it is turned down from the tread. */
  readonly downDeg: number;
  /**
   * Position of the lower face, from the tangent line of the tread: outwards along the tread, and
   * up square to it.
   */
  readonly out: number;
  readonly up: number;
}

export interface Section {
  readonly ends: { readonly front: End; readonly rear: End };
  /** Length of the tread between its tangent lines. */
  readonly treadFlatMm: number;
  /**
   * Height of the tread's upper face over the floor, square to it, at the low and the high end of
   * `treadDepth`.
   */
  readonly lowRiseMm: number;
  readonly highRiseMm: number;
  /** Overall length along the floor. */
  readonly lengthMm: number;
}

/** The section by its figures. `impossibleHeelRest` says whether they make sense. */
export function sectionOf(v: HeelRest): Section {
  const [low, high] = [lowEnd(v), highEnd(v)];
  const w = wedgeDeg(v);
  const [lowLegs, highLegs] = [legsOf(v, low, -w), legsOf(v, high, w)];
  const [lowBack, highBack] = [firstSetback(v, lowLegs), firstSetback(v, highLegs)];
  const treadFlatMm = v.treadDepth - lowBack - highBack;
  const lowTangent =
    v.lift > 0
      ? v.lift - v.thicknessMm * cosDeg(w) + lowBack * sinDeg(w)
      : onFloorMm(v, lowLegs, w);
  const highTangent = lowTangent + treadFlatMm * sinDeg(w);
  const lowRiseMm = lowTangent + v.thicknessMm * cosDeg(w) - lowBack * sinDeg(w);
  const ends = [
    endOf(v, low, -w, lowLegs, lowTangent),
    endOf(v, high, w, highLegs, highTangent),
  ] as const;
  return {
    ends: low === 'rear' ? { rear: ends[0], front: ends[1] } : { front: ends[0], rear: ends[1] },
    treadFlatMm,
    lowRiseMm,
    highRiseMm: lowRiseMm + v.treadDepth * sinDeg(w),
    lengthMm: ends[0].reachMm + treadFlatMm * cosDeg(w) + ends[1].reachMm,
  };
}

/**
 * Height of the tread's lower face over the floor where it runs down to it: 0 where its edge
 * touches the floor, more where the round of its bend does.
 */
const onFloorMm = (v: HeelRest, legs: readonly OpenLeg[], w: number): number =>
  legs.length === 0 ? 0 : (v.insideRadiusMm + v.thicknessMm) * (1 - cosDeg(w));

const firstSetback = (v: HeelRest, [leg]: readonly OpenLeg[]): number =>
  leg === undefined ? 0 : setbackOf(v, leg.angleDeg, leg.radiusMm);

/** Works out one end, with the length of the leg that runs to the floor. */
function endOf(
  v: HeelRest,
  place: Place,
  slopeDeg: number,
  legs: readonly OpenLeg[],
  tangentMm: number,
): End {
  const setback = firstSetback(v, legs);
  const settled: Leg[] = [];
  let at = { out: 0, up: 0, heading: 0 };
  let standing: Standing | undefined;
  let reachMm = reachAt(at, slopeDeg, v.thicknessMm);
  for (const [index, leg] of legs.entries()) {
    reachMm = Math.max(reachMm, roundReach(at, leg, slopeDeg, v.thicknessMm));
    at = turned(at, leg, v.thicknessMm);
    if (leg.flatMm === 'to the floor') {
      standing = { index, downDeg: -at.heading, out: at.out, up: at.up };
      const height = tangentMm + at.out * sinDeg(slopeDeg) + at.up * cosDeg(slopeDeg);
      settled.push({
        ...leg,
        flatMm: downToFloor(v, -at.heading - slopeDeg, height, legs[index + 1]),
      });
    } else settled.push({ ...leg, flatMm: leg.flatMm });
    const { flatMm } = settled[index] as Leg;
    at = {
      ...at,
      out: at.out + flatMm * cosDeg(at.heading),
      up: at.up + flatMm * sinDeg(at.heading),
    };
    reachMm = Math.max(reachMm, reachAt(at, slopeDeg, v.thicknessMm));
  }
  return {
    place,
    legs: settled,
    setbackMm: setback,
    tangentMm,
    reachMm,
    ...(standing !== undefined && { standing }),
  };
}

/**
 * Flat length of a leg that heads down to the floor at angle `foot`, its lower face beginning
 * `height` over it. The bend of its flange takes (r + t)(1 - cos) of the height; a leg without
 * flange stands on the lower corner of its end.
 */
function downToFloor(
  v: HeelRest,
  foot: number,
  height: number,
  flange: OpenLeg | undefined,
): number {
  const taken =
    flange === undefined
      ? Math.max(0, -v.thicknessMm * cosDeg(foot))
      : (flange.radiusMm + v.thicknessMm) * (1 - cosDeg(foot));
  return (height - taken) / sinDeg(foot);
}

interface Walker {
  readonly out: number;
  readonly up: number;
  /** Angle over the tread. */
  readonly heading: number;
}

/**
 * Walks along the lower face round a bend: outside it when the sheet is turned up, inside when
 * down.
 */
function turned({ out, up, heading }: Walker, bend: Bend, thicknessMm: number): Walker {
  const sign = bend.direction === 'up' ? 1 : -1;
  const radius = bend.radiusMm + (sign === 1 ? thicknessMm : 0);
  const after = heading + sign * bend.angleDeg;
  return {
    out: out + sign * radius * (sinDeg(after) - sinDeg(heading)),
    up: up + sign * radius * (cosDeg(heading) - cosDeg(after)),
    heading: after,
  };
}

/** Reach along the floor of the farther of the two faces. */
const reachAt = ({ out, up, heading }: Walker, slopeDeg: number, thicknessMm: number): number =>
  out * cosDeg(slopeDeg) -
  up * sinDeg(slopeDeg) +
  Math.max(0, -thicknessMm * sinDeg(heading + slopeDeg));

/**
 * Reach of a bend: at its end, and at the point where it stands square to the floor, if there is
 * one.
 */
function roundReach(at: Walker, bend: Bend, slopeDeg: number, thicknessMm: number): number {
  const sign = bend.direction === 'up' ? 1 : -1;
  const square = [90, -90]
    .map((deg) => sign * (deg - at.heading - slopeDeg))
    .filter((deg) => deg > 0 && deg < bend.angleDeg);
  return Math.max(
    ...[...square, bend.angleDeg].map((angleDeg) =>
      reachAt(turned(at, { ...bend, angleDeg }, thicknessMm), slopeDeg, thicknessMm),
    ),
  );
}
