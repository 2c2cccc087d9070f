import { cosDeg, sinDeg } from '../../geometry/degrees.ts';
import { SETTLED_MM } from '../../geometry/tolerance.ts';
import { type Body, lastContact } from './body.ts';

/** A round tube, mm. A rod's wall is half its diameter. */
export interface Tube {
  readonly diameterMm: number;
  readonly wallMm: number;
}

export const insideRadius = ({ diameterMm, wallMm }: Tube): number => diameterMm / 2 - wallMm;

/**
 * How far one surface of a tube is cut back, at a place round it: along the axis from the node, mm.
 * The greatest of all bodies that it is pushed against; `undefined` where it meets none.
 */
export const surfaceCutBack = (
  bodies: readonly Body[],
  radiusMm: number,
  roundDeg: number,
): number | undefined => {
  const [x, y] = [radiusMm * cosDeg(roundDeg), radiusMm * sinDeg(roundDeg)];
  let most: number | undefined;
  for (const body of bodies) {
    const at = lastContact(body, x, y);
    if (at !== undefined && !(at <= (most ?? -Infinity))) most = at;
  }
  return most;
};

/** Radii of the wall at which it is looked at before the greatest is closed in on. */
const LAYERS = 8;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * How far a tube has to be cut back at a place round it, by a cut that is square to its wall there:
 * the greatest over the wall, from its inside to its outside radius. Any less, and a layer of the
 * wall stands on the body before the rest does; the outside alone says too little wherever the
 * inside touches first, as it does on the obtuse side. On a round header the greatest is smooth in
 * the radius with one summit, which is closed in on by golden section (J. Kiefer, 1953; from
 * memory).
 */
export const wallCutBack = (
  bodies: readonly Body[],
  tube: Tube,
  roundDeg: number,
): number | undefined => {
  const greatest = bodies.flatMap((body): number[] => {
    const most = greatestOver(body, tube, roundDeg);
    return most === undefined ? [] : [most];
  });
  return greatest.length === 0 ? undefined : Math.max(...greatest);
};

const greatestOver = (body: Body, tube: Tube, roundDeg: number): number | undefined => {
  const [inside, outside] = [Math.max(0, insideRadius(tube)), tube.diameterMm / 2];
  const step = (outside - inside) / LAYERS;
  const at = (r: number): number => surfaceCutBack([body], r, roundDeg) ?? -Infinity;
  let best = 0;
  const layers = Array.from({ length: LAYERS + 1 }, (_, i) =>
    at(i === LAYERS ? outside : inside + i * step),
  );
  layers.forEach((z, i) => {
    if (z > (layers[best] as number)) best = i;
  });
  if (layers[best] === -Infinity) return undefined;
  const found = summit(
    at,
    inside + Math.max(0, best - 1) * step,
    inside + Math.min(LAYERS, best + 1) * step,
  );
  return Math.max(layers[best] as number, found);
};

/** The greatest value between two places with one summit between them; its ends are looked at before. */
const summit = (at: (r: number) => number, from: number, to: number): number => {
  let [low, high] = [from, to];
  let [p, q] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
  let [atP, atQ] = [at(p), at(q)];
  // A summit is flat: half the digits of its place give all those of its height.
  while (high - low > SETTLED_MM) {
    if (atP < atQ) {
      [low, p, atP] = [p, q, atQ];
      q = low + GOLDEN * (high - low);
      atQ = at(q);
    } else {
      [high, q, atQ] = [q, p, atP];
      p = high - GOLDEN * (high - low);
      atP = at(p);
    }
  }
  return Math.max(atP, atQ);
};
