import { figure } from '../text/figures.ts';
import { roundCorners } from '../geometry/fillet.ts';
import { edgeNames, edgesCalled, type Loop } from '../geometry/loop.ts';
import type { CommonValues } from '../forms/common.ts';
import { type Finding, refuse, stop } from '../model/finding.ts';
import { orLess } from '../model/mend.ts';

/** An outline with its corners rounded; its edges keep their names. */
export interface FreeCorners {
  readonly outline: Loop;
  readonly findings: readonly Finding[];
}

/** Form of free corners: round, cut off, or sharp where both are 0. */
export type CornerValues = Pick<CommonValues, 'cornerRadiusMm' | 'cornerChamferMm'>;

/**
 * A corner: both ends of an edge by its name, `top`; the corner where two edges meet, `['top',
 * 'left']`; or a point of the outline by its number.
 */
export type FreeCorner = string | readonly [one: string, other: string] | number;

/** Lengths by the names of edges, or by their numbers. */
export type KeptMm = Readonly<Record<string, number>> | readonly number[];

const isList = (keepMm: KeptMm): keepMm is readonly number[] => Array.isArray(keepMm);

/** Length that a square free corner takes off either of its edges, mm. */
export const cornerMm = ({ cornerRadiusMm, cornerChamferMm }: CornerValues): number =>
  Math.max(cornerRadiusMm, cornerChamferMm);

/** The input that asked for the corners. */
export const cornerInput = ({ cornerChamferMm }: CornerValues): 'cornerRadius' | 'cornerChamfer' =>
  cornerChamferMm > 0 ? 'cornerChamfer' : 'cornerRadius';

/**
 * Rounds or chamfers the corners of a panel that touch no fold. `keepMm` is how much of an edge a
 * bend takes up, by the edge's name or, as a list, by its number. A size that is too big leaves the
 * outline as it is and is a finding with the largest that fits; so is a name that no edge has.
 */
export function roundFreeCorners(
  panel: string,
  outline: Loop,
  corners: readonly FreeCorner[],
  values: CornerValues,
  keepMm: KeptMm = [],
): FreeCorners {
  const kept = isList(keepMm) ? [] : Object.keys(keepMm);
  const wrong = [...corners, ...kept].filter((corner) => pointsAt(outline, corner).length === 0);
  if (wrong.length > 0)
    return { outline, findings: wrong.map((corner) => noSuchCorner(panel, outline, corner)) };
  const rounded = roundCorners(
    outline,
    corners.flatMap((corner) => pointsAt(outline, corner)),
    cornerMm(values),
    isList(keepMm) ? keepMm : outline.map(({ edge = '' }) => keepMm[edge] ?? 0),
    values.cornerChamferMm > 0 ? 'chamfer' : 'round',
  );
  if (rounded.ok) return { outline: rounded.loop, findings: [] };
  const input = cornerInput(values);
  const finding = refuse(
    'corner-radius-too-big',
    [input],
    `${input} ${figure(cornerMm(values))} does not fit ${panel}`,
    [orLess(input, Math.max(0, rounded.largestMm))],
  );
  return { outline, findings: [finding] };
}

/**
 * The points of an outline that a corner stands for; none where its name is not that of exactly one
 * edge.
 */
const pointsAt = (outline: Loop, corner: FreeCorner): readonly number[] => {
  if (typeof corner === 'number') return outline[corner] === undefined ? [] : [corner];
  const endsOf = (name: string): readonly number[] => {
    const [edge, ...more] = edgesCalled(outline, name);
    return edge === undefined || more.length > 0 ? [] : [edge, (edge + 1) % outline.length];
  };
  if (typeof corner === 'string') return endsOf(corner);
  const [ends, others] = [endsOf(corner[0]), endsOf(corner[1])];
  return ends.filter((point) => others.includes(point));
};

const noSuchCorner = (panel: string, outline: Loop, corner: FreeCorner): Finding => {
  const names = edgeNames(outline).join(', ');
  const what =
    typeof corner === 'object'
      ? `no corner between edges '${corner.join("' and '")}'`
      : typeof corner === 'string'
        ? `no one edge '${corner}'`
        : `no point ${corner}`;
  return stop(
    'panel-outline',
    `The outline of ${panel} has ${what}: ${names === '' ? `its edges have no names, and its points are 0 to ${outline.length - 1}` : `its edges are ${names}`}.`,
  );
};
