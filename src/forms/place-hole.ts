import { obround, regularPolygon } from '../geometry/shapes.ts';
import { add, scale, type Vec2 } from '../geometry/vec2.ts';
import type { Cutout, PlaceFigure } from '../model/part.ts';
import { from as fromAxis, type HoleAxis, type HoleDatum } from './hole-axes.ts';
import type { HoleSpec } from './holes.ts';
import { tubeHoleLoop } from './tube-hole.ts';

/**
 * Axes from which the holes of a panel are measured, in the panel's coordinates: `origin` is the
 * left end of the fold's mould line, `across` the unit vector away from the fold, `along` the one
 * along it to the right.
 */
export interface HoleFrame {
  readonly origin: Vec2;
  readonly across: Vec2;
  readonly along: Vec2;
  /** Thickness of the sheet, which a tube at an angle cuts through. */
  readonly thicknessMm: number;
  /** Distance to the opposite place, across and along, mm, for a field whose axes name it. */
  readonly spanMm?: readonly [number, number];
}

/** A hole with its place, when it no longer matters what it was measured from. */
interface Placed {
  readonly acrossMm: number;
  readonly alongMm: number;
}

/** One hole as a cut-out. `from` names the input it came from, as findings will. */
export function placeHole(
  spec: Omit<HoleSpec, 'number' | 'axes'> & Partial<Pick<HoleSpec, 'axes'>>,
  from: string,
  frame: HoleFrame,
): Cutout {
  const { acrossMm, alongMm } = measuredFromNear(spec, frame);
  const centre = pointIn(frame, acrossMm, alongMm);
  const more = {
    ...(spec.use !== undefined && { use: spec.use }),
    ...(spec.axes !== undefined && { figures: figuresOf(spec, spec.axes, frame) }),
    ...(spec.isShort === true && { otherWay: pointIn(frame, alongMm, acrossMm) }),
  };
  const { shape } = spec;
  if (shape.kind === 'round')
    return { kind: 'round', from, centre, diameterMm: shape.diameterMm, ...more };
  const panelTurn = (Math.atan2(frame.along[1], frame.along[0]) * 180) / Math.PI;
  if (shape.kind === 'tube') {
    const loop = tubeHoleLoop(shape, centre, frame.thicknessMm, panelTurn);
    return { kind: 'loop', from, loop, ...more };
  }
  const turn = panelTurn + shape.turnDeg;
  if (shape.kind === 'slot')
    return {
      kind: 'loop',
      from,
      loop: obround(centre, shape.widthMm, shape.lengthMm, turn),
      ...more,
    };
  return {
    kind: 'loop',
    from,
    loop: regularPolygon(centre, shape.kind === 'square' ? 4 : 6, shape.widthMm, turn),
    ...more,
  };
}

/** The figures of a hole as they were given; the middle is not a figure. */
function figuresOf(
  {
    acrossMm,
    alongMm,
    datums = ['near', 'near'],
  }: Pick<HoleSpec, 'acrossMm' | 'alongMm' | 'datums'>,
  axes: HoleSpec['axes'],
  { across, along }: HoleFrame,
): PlaceFigure[] {
  const one = (axis: HoleAxis, datum: HoleDatum, mm: number, away: Vec2): PlaceFigure[] => {
    if (datum === 'near') return [{ from: fromAxis(axis), mm, towards: away }];
    return datum === 'far' && axis.to !== undefined
      ? [{ from: `from ${axis.to}`, mm, towards: scale(away, -1) }]
      : [];
  };
  return [...one(axes[0], datums[0], acrossMm, across), ...one(axes[1], datums[1], alongMm, along)];
}

const pointIn = ({ origin, across, along }: HoleFrame, acrossMm: number, alongMm: number): Vec2 =>
  add(origin, add(scale(across, acrossMm), scale(along, alongMm)));

/** The two figures of a hole as measured from the near ends of its axes. */
export const measuredFromNear = (
  {
    acrossMm,
    alongMm,
    datums = ['near', 'near'],
  }: Pick<HoleSpec, 'acrossMm' | 'alongMm' | 'datums'>,
  { spanMm = [NaN, NaN] }: Pick<HoleFrame, 'spanMm'>,
): Placed => ({
  acrossMm: fromNear(acrossMm, datums[0], spanMm[0]),
  alongMm: fromNear(alongMm, datums[1], spanMm[1]),
});

const fromNear = (mm: number, datum: HoleDatum, spanMm: number): number => {
  if (datum === 'near') return mm;
  if (Number.isNaN(spanMm))
    throw new TypeError(
      'holes that are measured from what lies opposite need to know how far that is',
    );
  return datum === 'far' ? spanMm - mm : spanMm / 2 + mm;
};

/** All holes of an input, named `holesA 1`, `holesA 2`, ... */
export const placeHoles = (input: string, specs: readonly HoleSpec[], frame: HoleFrame): Cutout[] =>
  specs.map((spec) => placeHole(spec, `${input} ${spec.number}`, frame));
