import { figure } from '../text/figures.ts';
import { roundCorners } from '../geometry/fillet.ts';
import type { Loop } from '../geometry/loop.ts';
import type { CommonValues } from '../forms/common.ts';
import { type Finding, refuse } from '../model/finding.ts';
import { orLess } from '../model/mend.ts';

/**
 * An outline with its corners rounded; `edge(i)` is where its former piece `i`, a folded one, now
 * stands.
 */
export interface FreeCorners {
  readonly outline: Loop;
  readonly edge: (index: number) => number;
  readonly findings: readonly Finding[];
}

/** How free corners are to be: round, cut off, or sharp where both are 0. */
export type CornerValues = Pick<CommonValues, 'cornerRadiusMm' | 'cornerChamferMm'>;

/** What a square free corner takes off either of its edges, mm. */
export const cornerMm = ({ cornerRadiusMm, cornerChamferMm }: CornerValues): number =>
  Math.max(cornerRadiusMm, cornerChamferMm);

/** The input that asked for it. */
export const cornerInput = ({ cornerChamferMm }: CornerValues): 'cornerRadius' | 'cornerChamfer' =>
  cornerChamferMm > 0 ? 'cornerChamfer' : 'cornerRadius';

/**
 * Rounds or chamfers the corners of a panel that touch no fold. `keepMm[i]` is how much of piece
 * `i` a bend takes up. A size that is too big leaves the outline as it is and is a finding with the
 * largest that fits.
 */
export function roundFreeCorners(
  panel: string,
  outline: Loop,
  corners: readonly number[],
  values: CornerValues,
  keepMm: readonly number[] = [],
): FreeCorners {
  const rounded = roundCorners(
    outline,
    corners,
    cornerMm(values),
    keepMm,
    values.cornerChamferMm > 0 ? 'chamfer' : 'round',
  );
  if (!rounded.ok) {
    const input = cornerInput(values);
    const finding = refuse(
      'corner-radius-too-big',
      [input],
      `${input} ${figure(cornerMm(values))} does not fit ${panel}`,
      [orLess(input, Math.max(0, rounded.largestMm))],
    );
    return { outline, edge: (index) => index, findings: [finding] };
  }
  const edge = (index: number): number => {
    const now = rounded.edges[index];
    if (now === undefined) throw new Error(`piece ${index} of ${panel} was rounded away`);
    return now;
  };
  return { outline: rounded.loop, edge, findings: [] };
}
