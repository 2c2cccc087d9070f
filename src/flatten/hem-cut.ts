import { clip } from '../geometry/clip.ts';
import { loopExtents } from '../geometry/extents.ts';
import { pieceOf } from '../geometry/piece.ts';
import type { Loop, Vertex } from '../geometry/loop.ts';
import { dot, leftOf, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import type { Finding } from '../model/finding.ts';
import { foldName, foundOn } from '../model/found-on.ts';
import type { Cutout, Fold, FoldSide, Panel, Part } from '../model/part.ts';
import type { SeamCut } from './seam-cut.ts';

/** A fold right over that is to be a hem: its further panel ends `depthMm` past the fold. */
export interface HemCut {
  readonly fold: string;
  readonly way: 'hem';
  readonly depthMm: number;
}

/** A part with hems cut off as panels of their own, and where the rest is welded on again. */
export interface HemsCut {
  readonly part: Part;
  readonly cuts: readonly SeamCut[];
  readonly findings: readonly Finding[];
}

/** Less than this is left on for no seam: less than a thickness or so is burnt away, mm. */
const LEAST_REST_MM = 5;

/**
 * Cuts the further panels of folds right over apart, level with the fold, into a hem and a rest in the
 * same plane, which a fold of no angle joins. Cut apart there the rest stands where it stood.
 */
export function hemsApart(part: Part, hems: readonly HemCut[]): HemsCut {
  let whole = part;
  const cuts: SeamCut[] = [];
  const findings: Finding[] = [];
  for (const hem of hems) {
    const made = hemApart(whole, hem);
    if ('severity' in made) findings.push(made);
    else {
      whole = made;
      cuts.push({ fold: joinId(hem), way: 'weld' });
    }
  }
  return { part: whole, cuts, findings };
}

/** Whether a fold lies so flat on its panel that it may be a hem. */
export const canBeHem = ({ angleDeg, teardropMm, midSurface }: Fold): boolean =>
  angleDeg === 180 && teardropMm === undefined && midSurface !== true;

const joinId = ({ fold }: HemCut): string => `${fold} hem`;

/** A vertex that knows which edge of its panel begins there; none where the cut does. */
interface Numbered extends Vertex {
  readonly was: number | undefined;
}

function hemApart(part: Part, hem: HemCut): Part | Finding {
  const fold = part.folds.find(({ id }) => id === hem.fold) as Fold;
  const panel = part.panels.find(({ id }) => id === fold.child.panel) as Panel;
  const refused = (why: string): Finding =>
    foundOn(
      'no-hem-seam',
      { panels: [panel.id], folds: [fold.id] },
      `${foldName(part, fold.id)} cannot be a hem of ${hem.depthMm} mm: ${why}`,
      'leave it out of hemAt, or make the hem narrower (hemDepth)',
    );
  if (!canBeHem(fold)) return refused('it is not folded right over');
  const { from, to } = pieceOf(panel.outline, fold.child.edge);
  const into = leftOf(unit(sub(to, from)));
  const level = dot(from, into) + hem.depthMm;
  const outline = panel.outline.map((v, was): Numbered => ({ ...v, was }));
  const onCut = ([x, y]: Vec2): Numbered => ({ x, y, bulge: 0, was: undefined });
  const near = clip(outline, [-into[0], -into[1]], -level, onCut);
  const rest = clip(outline, into, level, onCut);
  const deepest = Math.max(...outline.map(({ x, y }) => dot([x, y], into)));
  if (near.length !== 1 || rest.length !== 1 || deepest - level < LEAST_REST_MM)
    return refused(`${panel.id} has no rest in one piece beyond it`);
  const sides = [near[0], rest[0]] as readonly [Loop<Numbered>, Loop<Numbered>];
  const id = `${panel.id} hem`;
  const [nearHoles, restHoles] = [-1, 1].map((sign) =>
    panel.cutouts.filter((cutout) => sideOf(cutout, into, level) === sign),
  ) as [Cutout[], Cutout[]];
  if (nearHoles.length + restHoles.length < panel.cutouts.length)
    return refused('a hole lies on its edge');
  const moved = (side: FoldSide): FoldSide | undefined => {
    if (side.panel !== panel.id) return side;
    const places = sides.map((loop) => loop.findIndex(({ was }) => was === side.edge));
    const [onNear = -1, onRest = -1] = places;
    // An edge that the cut goes through is on both.
    if (onNear >= 0 === onRest >= 0) return undefined;
    return onNear >= 0 ? { ...side, panel: id, edge: onNear } : { ...side, edge: onRest };
  };
  const folds: Fold[] = [];
  for (const one of part.folds) {
    const [parent, child] = [moved(one.parent), moved(one.child)];
    if (parent === undefined || child === undefined)
      return refused(`it would cut through ${foldName(part, one.id)}`);
    folds.push({ ...one, parent, child });
  }
  const cutEdge = (loop: Loop<Numbered>): number => loop.findIndex(({ was }) => was === undefined);
  const plain = (loop: Loop<Numbered>): Loop =>
    loop.map(({ was, ...v }) => (was === undefined ? { ...v, bulge: 0 } : v));
  return {
    ...part,
    panels: part.panels.flatMap((own) =>
      own.id === panel.id
        ? [
            { id, outline: plain(sides[0]), cutouts: nearHoles },
            { ...own, outline: plain(sides[1]), cutouts: restHoles },
          ]
        : [own],
    ),
    folds: [
      ...folds,
      {
        id: joinId(hem),
        parent: { panel: id, edge: cutEdge(sides[0]) },
        child: { panel: panel.id, edge: cutEdge(sides[1]) },
        angleDeg: 0,
        direction: 'up',
        insideRadiusMm: 0,
      },
    ],
  };
}

/** On which side of the cut a cut-out lies: -1 on the hem, 1 on the rest, 0 on both. */
const sideOf = (cutout: Cutout, into: Vec2, level: number): -1 | 0 | 1 => {
  const reach = (): readonly number[] => {
    if (cutout.kind === 'round') {
      const middle = dot(cutout.centre, into);
      return [middle - cutout.diameterMm / 2, middle + cutout.diameterMm / 2];
    }
    const { minX, minY, maxX, maxY } = loopExtents(cutout.loop) ?? NOWHERE;
    return [minX, maxX].flatMap((x) => [minY, maxY].map((y) => dot([x, y], into)));
  };
  const levels = reach();
  if (levels.every((h) => h < level)) return -1;
  return levels.every((h) => h > level) ? 1 : 0;
};

const NOWHERE = { minX: 0, minY: 0, maxX: 0, maxY: 0 };
