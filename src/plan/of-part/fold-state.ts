import type { FoldShare } from '../../fold/fold-up.ts';
import { HEM_DEG } from '../../bending/hem.ts';
import { bendNamed } from './step-notes.ts';
import { foldIdsOf, type NetFold } from '../machines/net.ts';
import { bentFold, foldBits } from '../machines/pre-fold.ts';
import type { Lattice } from '../search/lattice.ts';
import type { Stroke } from '../search/stroke.ts';
import type { FlatPattern } from '../../model/flat.ts';
import type { StepCard } from '../../contract/fold-plan.ts';

/**
 * How far each fold of the part is bent when the folds of `made`, as bits, are made: those that are
 * made in part by now as far as their first stroke takes them. Folds that no machine makes are flat.
 */
export const shareWhen = ({ net }: Lattice, flat: FlatPattern, made: number): FoldShare => {
  const shares = new Map<string, number>();
  net.folds.forEach((fold, f) => {
    const isMade = (made & (1 << f)) !== 0;
    const inPart = (made & foldBits(net, f)) !== 0;
    const pre = net.preFolds?.find((p) => p.fold === f)?.made.angleDeg ?? 0;
    for (const id of foldIdsOf(fold))
      shares.set(id, isMade ? 1 : inPart ? pre / bendNamed(flat, id).angleDeg : 0);
  });
  return (id) => shares.get(id) ?? 0;
};

/** The same with the folds of one stroke at an angle of their own. */
export const withAngle =
  (share: FoldShare, flat: FlatPattern, ids: readonly string[], deg: number): FoldShare =>
  (id) =>
    ids.includes(id) ? deg / bendNamed(flat, id).angleDeg : share(id);

/**
 * The angle that a fold keeps after a stroke: sprung back, and pressed flat where it is a hem whose
 * stroke is its last.
 */
export const keptDeg = (
  { net }: Lattice,
  stroke: Stroke,
  flat: FlatPattern,
): StepCard['keepsDeg'] => {
  const fold = net.folds[stroke.folds[0] as number] as NetFold;
  const { angleDeg } = bendNamed(flat, foldIdsOf(fold)[0] as string);
  const bent = bentFold(net, stroke);
  if (bent !== fold) return bent.angleDeg;
  return angleDeg >= HEM_DEG ? angleDeg : fold.angleDeg;
};
