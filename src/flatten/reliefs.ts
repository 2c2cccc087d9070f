import { isInside } from '../geometry/inside.ts';
import type { Loop } from '../geometry/loop.ts';
import { signedArea } from '../geometry/measure.ts';
import { moveLoop, type Motion2 } from '../geometry/motion2.ts';
import { crossings, pieceOf, pointOn } from '../geometry/piece.ts';
import { selfCrossing } from '../geometry/self-crossing.ts';
import { subtract } from '../geometry/subtract.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import type { FlatVertex } from '../model/flat.ts';
import { cornerReliefs } from './corner-relief.ts';
import type { Draft } from './draft.ts';
import type { Strip, Walk } from './walk.ts';

/** Cuts the corner reliefs out of the walked outline and shortens the fold lines that ran into them. */
export const cutReliefs = (draft: Draft, walk: Walk): { outline: Loop<FlatVertex>; strips: ReadonlyMap<string, Strip> } => {
  const reliefs = [...draft.panels.keys()].flatMap((panel) =>
    cornerReliefs(draft, panel).map((shape) => ({ panel, shape: moveLoop(walk.placements.get(panel) as Motion2, shape) })),
  );
  let outline: Loop<FlatVertex> = walk.outline;
  for (const { panel, shape } of reliefs) {
    const parts = subtract(outline, shape, ([x, y], bulge): FlatVertex => ({ x, y, bulge, origin: { kind: 'relief', panel } }));
    // A walk that runs over itself stays as it is: the overlap is found and named later.
    if (parts !== undefined) outline = largest(parts);
    else if (selfCrossing(outline) === undefined) throw new Error(`${draft.part.name}: a relief of ${panel} could not be cut`);
  }
  const strips = new Map(walk.strips.map((s) => [s.fold, { ...s, centreLine: shortened(s.centreLine, reliefs) }]));
  return { outline, strips };
};

/** A relief may cut a splinter off the end of a bend zone; the blank is what is left. */
const largest = (parts: readonly Loop<FlatVertex>[]): Loop<FlatVertex> =>
  parts.reduce((best, p) => (signedArea(p) > signedArea(best) ? p : best));

const shortened = (line: Strip['centreLine'], reliefs: readonly { readonly shape: Loop }[]): Strip['centreLine'] =>
  reliefs.reduce<Strip['centreLine']>(([p, q], { shape }) => {
    const from = clear(p, q, shape);
    return [from, clear(q, from, shape)];
  }, line);

/** The end `p` of the line, moved towards `q` until it is out of the shape. */
const clear = (p: Vec2, q: Vec2, shape: Loop): Vec2 => {
  if (!isInside(shape, p)) return p;
  const line = { from: p, to: q, bulge: 0 };
  const shares = shape.flatMap((_, i) => crossings(line, pieceOf(shape, i)).map((c) => c.a));
  return shares.length === 0 ? p : pointOn(line, Math.max(...shares));
};
