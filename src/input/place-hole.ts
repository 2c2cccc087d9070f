import { obround } from '../geometry/shapes.ts';
import { add, scale, type Vec2 } from '../geometry/vec2.ts';
import type { Cutout } from '../model/part.ts';
import type { HoleSpec } from './holes.ts';

/**
 * From where the holes of a panel are measured, in the panel's coordinates: `origin` is the left end of the fold's
 * mould line, `across` the unit vector away from the fold, `along` the one along it to the right.
 */
export interface HoleFrame {
  readonly origin: Vec2;
  readonly across: Vec2;
  readonly along: Vec2;
}

/** One hole as a cut-out. `from` names the input it came from, as findings will. */
export function placeHole(spec: HoleSpec, from: string, frame: HoleFrame): Cutout {
  const { origin, across, along } = frame;
  const centre = add(origin, add(scale(across, spec.acrossMm), scale(along, spec.alongMm)));
  const { shape } = spec;
  if (shape.kind === 'round') return { kind: 'round', from, centre, diameterMm: shape.diameterMm };
  const fold = (Math.atan2(along[1], along[0]) * 180) / Math.PI;
  return { kind: 'loop', from, loop: obround(centre, shape.widthMm, shape.lengthMm, fold + shape.turnDeg) };
}

/** All holes of an input, named `holesA 1`, `holesA 2`, ... */
export const placeHoles = (input: string, specs: readonly HoleSpec[], frame: HoleFrame): Cutout[] =>
  specs.map((spec, index) => placeHole(spec, `${input} ${index + 1}`, frame));
