import { sub, type Vec2 } from '../../geometry/vec2.ts';
import { shifting } from './affine.ts';
import { explode, type Exploded, type Oddity, type Stroke } from './explode.ts';
import { concealedLayers } from './layers.ts';
import { mapped, type Primitive } from './primitive.ts';
import type { DxfSections } from './records.ts';

/** What a file draws, mm. */
export interface DrawnLines extends Exploded {
  /**
   * The file's coordinates of the point that is 0 here. It differs from 0 only for drawings that
   * lie far away from their origin.
   */
  readonly origin: Vec2;
}

/**
 * A drawing that begins no farther from 0 than this is left in place. Hardly any sheet reaches
 * beyond it, and figures lose digits there.
 */
const FAR_MM = 1e7;

/**
 * The lines of a file in mm; a unit of the file is `mm` long. A drawing far away from 0 (a plan on
 * the grid of a country) is brought near it. Lines far away from the rest of the drawing are
 * reported and left out.
 */
export const drawnLines = ({ entities, blocks, tables }: DxfSections, mm: number): DrawnLines => {
  const exploded = explode(entities, blocks, concealedLayers(tables), mm);
  if (exploded.strokes.every(({ primitive }) => isWithin(primitive, [0, 0])))
    return { ...exploded, origin: [0, 0] };
  const places = exploded.strokes.map(({ primitive }) => placeOf(primitive));
  const origin: Vec2 = [middling(places.map((p) => p[0])), middling(places.map((p) => p[1]))];
  const map = shifting(-origin[0], -origin[1]);
  const near = exploded.strokes.filter(({ primitive }) => isWithin(primitive, origin));
  const strays = exploded.strokes.filter(({ primitive }) => !isWithin(primitive, origin));
  const oddities = [...exploded.oddities, ...straysOf(strays)].map(({ at, ...odd }): Oddity => ({
    ...odd,
    ...(at !== undefined && { at: sub(at, origin) }),
  }));
  return {
    texts: exploded.texts.map((t) => ({ ...t, at: sub(t.at, origin) })),
    strokes: near.map((s) => ({ ...s, primitive: mapped(map, s.primitive) })),
    oddities,
    origin,
  };
};

/** Lines far from one another do not make one drawing. */
const FAR_AWAY = `lies more than ${FAR_MM / 1e6} km away from the rest of the drawing`;

const straysOf = (strokes: readonly Stroke[]): Oddity[] => {
  const strays = new Map<string, Oddity>();
  for (const { type, layer, primitive } of strokes) {
    const key = `${type}\n${layer}`;
    const known = strays.get(key);
    strays.set(key, {
      type,
      layer,
      why: 'bad',
      detail: FAR_AWAY,
      at: known?.at ?? placeOf(primitive),
      count: 1 + (known?.count ?? 0),
    });
  }
  return [...strays.values()];
};

/** The middle value in whole metres, so that figures keep the digits that the file has. */
const middling = (values: number[]): number =>
  Math.round((values.sort((a, b) => a - b)[values.length >> 1] as number) / 1000) * 1000;

const placeOf = (p: Primitive): Vec2 =>
  p.kind === 'piece' ? p.piece.from : p.kind === 'conic' ? p.centre : (p.points[0] as Vec2);

const isWithin = (p: Primitive, [x, y]: Vec2): boolean => {
  const near = ([px, py]: Vec2): boolean =>
    Math.abs(px - x) <= FAR_MM && Math.abs(py - y) <= FAR_MM;
  switch (p.kind) {
    case 'piece':
      return near(p.piece.from) && near(p.piece.to);
    case 'conic':
      return near(p.centre) && Math.hypot(...p.u, ...p.v) <= FAR_MM;
    case 'spline':
      return p.points.every(near);
  }
};
