import {
  along,
  cross,
  distance,
  dot,
  middle,
  refuse,
  splitPlate,
  sub,
  unit,
} from '../../src/template.ts';
import type { Cutout, Finding, Loop, ReportFigure, SplitPlate, Vec2 } from '../../src/template.ts';
import { type BraceHole, isFinding, locate, placeText, slotLandMm } from './sizes.ts';
import type { StrutBrace } from './inputs.ts';

/** Two points of a crease. */
export type CreaseLine = readonly [Vec2, Vec2];

/**
 * A length beyond any plate, mm: the crease runs from edge to edge whichever two of its points are
 * given.
 */
const BEYOND_MM = 50_000;

/**
 * Least distance of the two marks of a crease, mm, read with a tape; nearer marks give no
 * direction.
 */
const LEAST_APART_MM = 1;

/** The line of the crease; undefined without one. */
export function creaseLine(v: StrutBrace): CreaseLine | Finding | undefined {
  if (v.crease === undefined) return undefined;
  const from = locate(v, 'crease', v.crease[0]);
  if (isFinding(from)) return from;
  const to = locate(v, 'crease', v.crease[1]);
  if (isFinding(to)) return to;
  if (distance(from, to) >= LEAST_APART_MM) return [from, to];
  return refuse(
    'crease-points-meet',
    ['crease'],
    `crease ${v.crease.map(placeText).join(' ')} has its two places on each other`,
    [],
    'give two that are apart on its line',
  );
}

/** The panels of the plate: one, or the two on either side of the crease. */
export function creasedPlate(
  v: StrutBrace,
  outline: Loop,
  cutouts: readonly Cutout[],
  line: CreaseLine | undefined,
): SplitPlate {
  const slots = {
    longestMm: v.slotLength,
    landMm: slotLandMm(v),
    widthMm: v.leastSlotMm,
    landInput: 'slotLand',
  };
  const bends = { insideRadiusMm: v.insideRadiusMm, slots };
  if (line === undefined) return splitPlate(outline, [], cutouts, bends);
  const [mid, dir] = [middle(...line), unit(sub(line[1], line[0]))];
  const fold = {
    id: '1',
    called: 'the crease',
    input: 'crease',
    from: along(mid, dir, -BEYOND_MM),
    to: along(mid, dir, BEYOND_MM),
    angleDeg: v.creaseAngle,
    direction: v.creaseDirection,
  };
  return splitPlate(
    outline,
    [v.creaseStyle === 'slit' ? { ...fold, slots: true } : fold],
    cutouts,
    bends,
  );
}

/**
 * Straight distances through the air from every pick-up hole to every hole on the far side of the
 * crease.
 */
export function straightFigures(
  v: StrutBrace,
  holes: readonly BraceHole[],
  line: CreaseLine,
): readonly ReportFigure[] {
  const isPickup = ({ from }: BraceHole): boolean =>
    v.pickups?.some((p) => p.name === from) === true;
  return holes.filter(isPickup).flatMap((pickup) =>
    holes.flatMap((other): ReportFigure[] => {
      const value = straightMm(line, v.creaseAngle, pickup.at, other.at);
      return value === undefined || (isPickup(other) && other.from < pickup.from)
        ? []
        : [
            {
              name: `${pickup.from} to ${other.from}, straight`,
              value,
              unit: 'mm',
              about: `Middle to middle on the creased plate, on the ${v.measure} faces: what a tape held straight reads.`,
            },
          ];
    }),
  );
}

/**
 * Distance of two points on either side of a line about which the plate is turned by A. They lie p
 * and q from the line and s apart along it, so the distance is sqrt(s^2 + p^2 + q^2 + 2 p q cos A)
 * (law of cosines). Undefined for two on one side.
 */
function straightMm(
  [from, to]: CreaseLine,
  angleDeg: number,
  a: Vec2,
  b: Vec2,
): number | undefined {
  const dir = unit(sub(to, from));
  const [p, q] = [cross(dir, sub(a, from)), -cross(dir, sub(b, from))];
  if (p * q <= 0) return undefined;
  const s = dot(dir, sub(b, a));
  return Math.sqrt(s * s + p * p + q * q + 2 * p * q * Math.cos((angleDeg * Math.PI) / 180));
}

/**
 * Effect of slitting on the force. A bend takes force in proportion to its length and to the square
 * of the thickness (air bending of sheet; common practice), so a line of which a share is left
 * folds like a sheet that is thinner by the root of that share.
 */
export function slitFigures(v: StrutBrace): readonly ReportFigure[] {
  if (v.crease === undefined || v.creaseStyle !== 'slit') return [];
  const share = slotLandMm(v) / (slotLandMm(v) + v.slotLength);
  return [
    {
      name: 'crease left to fold',
      value: 100 * share,
      unit: '%',
      about:
        'Share of the line between the slots, with slots of the full slotLength; weld them up after folding.',
    },
    {
      name: 'crease folds like',
      value: v.thicknessMm * Math.sqrt(share),
      unit: 'mm',
      about: 'Thickness of a sheet without slots that takes as much force.',
    },
  ];
}
