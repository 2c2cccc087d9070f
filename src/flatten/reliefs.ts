import { isInside } from '../geometry/inside.ts';
import type { Loop } from '../geometry/loop.ts';
import { signedArea } from '../geometry/measure.ts';
import { moveLoop, type Motion2 } from '../geometry/motion2.ts';
import { crossings, pieceOf, pointOn } from '../geometry/piece.ts';
import { selfCrossing } from '../geometry/self-crossing.ts';
import { subtract } from '../geometry/subtract.ts';
import { dot, middle, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { type Finding, hasStop } from '../model/finding.ts';
import type { FlatVertex } from '../model/flat.ts';
import { cornerReliefs } from './corner-relief.ts';
import { type Draft, jointOf } from './draft.ts';
import { foldName, foundOn } from '../model/found-on.ts';
import type { Strip, Walk } from './walk.ts';

/**
 * Cuts the corner reliefs out of the walked outline, and shortens the fold lines that ran into
 * them.
 */
export const cutReliefs = (
  draft: Draft,
  walk: Walk,
): { outline: Loop<FlatVertex>; strips: ReadonlyMap<string, Strip> } => {
  const reliefs = [...draft.panels.keys()].flatMap((panel) =>
    cornerReliefs(draft, panel).map((shape) => ({
      panel,
      shape: moveLoop(walk.placements.get(panel) as Motion2, shape),
    })),
  );
  let outline: Loop<FlatVertex> = walk.outline;
  for (const { panel, shape } of reliefs) {
    const parts = subtract(outline, shape, ([x, y], bulge): FlatVertex => ({
      x,
      y,
      bulge,
      origin: { kind: 'relief', panel },
    }));
    // A walk that runs over itself is left as it is; the overlap is found and named later.
    if (parts !== undefined) outline = whatIsLeft(draft, panel, outline, parts, shape);
    else if (selfCrossing(outline) === undefined)
      throw new Error(`${draft.part.name}: a relief of ${panel} could not be cut`);
  }
  // Reliefs that cut a flange off take its fold line too, and the flange has been reported already.
  if (!hasStop(draft.findings))
    draft.findings.push(
      ...walk.strips
        .filter(({ centreLine }) => isTaken(centreLine, reliefs))
        .map(({ fold }) => nothingToFold(draft, fold)),
    );
  const strips = new Map(
    walk.strips.map((s) => [s.fold, { ...s, centreLine: shortened(s.centreLine, reliefs) }]),
  );
  return { outline, strips };
};

/**
 * The blank that is left when a relief has cut a splinter off the end of a bend zone. A piece with
 * an edge of a panel on it, or one that is not small beside the relief, is no splinter; the reliefs
 * have then cut the part in two.
 */
const whatIsLeft = (
  draft: Draft,
  panel: string,
  outline: Loop<FlatVertex>,
  parts: readonly Loop<FlatVertex>[],
  shape: Loop,
): Loop<FlatVertex> => {
  const [largest] = parts.toSorted((a, b) => signedArea(b) - signedArea(a));
  if (largest === undefined) {
    draft.findings.push(cutThrough(panel));
    return outline;
  }
  const small = SPLINTER * signedArea(shape);
  const lost = parts.find(
    (p) => p !== largest && (signedArea(p) > small || p.some((v) => v.origin.kind === 'edge')),
  );
  if (lost !== undefined) draft.findings.push(cutThrough(panel));
  return largest;
};

/** Largest area of a splinter, as a share of the relief that cuts it off. */
const SPLINTER = 0.25;

const cutThrough = (panel: string): Finding =>
  foundOn(
    'relief-cuts-through',
    { panels: [panel] },
    `The reliefs at the corners of ${panel} meet and cut a flange off`,
    'make its edges longer, the inside radii smaller, or choose relief slit',
  );

/** Whether reliefs leave nothing of a fold line between them. */
const isTaken = (
  [p, q]: Strip['centreLine'],
  reliefs: readonly { readonly shape: Loop }[],
): boolean => {
  const [from, to] = shortened([p, q], reliefs);
  const left = dot(sub(to, from), unit(sub(q, p)));
  return left <= LEAST_FOLD_MM || reliefs.some(({ shape }) => isInside(shape, middle(from, to)));
};

/** A fold line shorter than this, mm, holds nothing. */
const LEAST_FOLD_MM = 1e-3;

const nothingToFold = (draft: Draft, id: string): Finding => {
  const { parent, child } = jointOf(draft, id).fold;
  const what = `The reliefs at its ends leave nothing of ${foldName(draft.part, id)} between ${parent.panel} and ${child.panel}`;
  return foundOn(
    'fold-edge-vanishes',
    { panels: [parent.panel, child.panel], folds: [id] },
    what,
    'make its edge longer, the inside radii smaller, or choose relief slit',
  );
};

const shortened = (
  line: Strip['centreLine'],
  reliefs: readonly { readonly shape: Loop }[],
): Strip['centreLine'] =>
  reliefs.reduce<Strip['centreLine']>(([p, q], { shape }) => {
    const from = clear(p, q, shape);
    return [from, clear(q, from, shape)];
  }, line);

/** The end `p` of the line, moved towards `q` until it is outside the shape. */
const clear = (p: Vec2, q: Vec2, shape: Loop): Vec2 => {
  if (!isInside(shape, p)) return p;
  const line = { from: p, to: q, bulge: 0 };
  const shares = shape.flatMap((_, i) => crossings(line, pieceOf(shape, i)).map((c) => c.a));
  return shares.length === 0 ? p : pointOn(line, Math.max(...shares));
};
