import { cosDeg, sinDeg } from '../geometry/degrees.ts';
import type { Loop } from '../geometry/loop.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import type { CommonValues } from '../input/common.ts';
import type { FoldLine } from '../input/fold-lines.ts';
import type { NamedHole } from '../input/hole-size.ts';
import type { HoleShape, HoleSpec } from '../input/holes.ts';
import { placeHole, placeHoles } from '../input/place-hole.ts';
import type { GivenPoints } from '../input/points.ts';
import { pointFindings, residualFigures } from '../input/survey-report.ts';
import type { Built } from '../input/template.ts';
import { type Finding, stop } from '../model/finding.ts';
import type { Cutout } from '../model/part.ts';
import { assemble } from './assemble.ts';
import { withJoggles } from './joggle.ts';
import { splitPlate } from './split-plate.ts';

/** A traced plate as it is asked for. */
export interface Plate extends CommonValues {
  readonly outline: Loop;
  readonly folds: readonly FoldLine[];
  readonly holes: readonly HoleSpec[];
  readonly cutouts: readonly Loop[];
  readonly points: GivenPoints | undefined;
  readonly pointHole: HoleShape;
  readonly pointHoles: readonly NamedHole[] | undefined;
  readonly pointsX: number;
  readonly pointsY: number;
  readonly pointsTurn: number;
  readonly slotLength: number;
  readonly slotLand: number | undefined;
}

const FRAME = { origin: [0, 0], across: [1, 0], along: [0, 1] } as const;

export function plate(v: Plate): Built {
  const measured = holesAtPoints(v);
  const windows = v.cutouts.map((loop, i): Cutout => ({ kind: 'loop', from: `cutouts ${i + 1}`, loop }));
  const holes = [...placeHoles('holes', v.holes, FRAME), ...measured.holes, ...windows];
  const slots = { longestMm: v.slotLength, landMm: v.slotLand ?? 2 * v.thicknessMm, widthMm: v.leastSlotMm };
  const split = splitPlate(v.outline, withJoggles(v.folds, v.thicknessMm, v.measure), holes, { insideRadiusMm: v.insideRadiusMm, slots });
  if ('findings' in split) return { findings: [...measured.findings, ...split.findings] };
  const figures = v.points === undefined ? [] : residualFigures(v.points);
  return { part: assemble(v, split), findings: measured.findings, ...(figures.length > 0 && { report: { figures } }) };
}

/**
 * Holes at points that were measured on the job, by coordinates or by tape distances: the first point comes to lie at
 * pointsX, pointsY, and the figure is turned about it so that its own x axis (for tape distances, the way to the second
 * point) points pointsTurn upward from level.
 */
function holesAtPoints(v: Plate): { readonly holes: readonly Cutout[]; readonly findings: readonly Finding[] } {
  const { points } = v;
  const [first] = points?.points ?? [];
  if (points === undefined || first === undefined) return { holes: [], findings: (v.pointHoles ?? []).map(({ name }) => unknown(name, 'no points are given')) };
  const strangers = (v.pointHoles ?? []).filter(({ name }) => !points.points.some((p) => p.name === name));
  const [c, s] = [cosDeg(v.pointsTurn), sinDeg(v.pointsTurn)];
  const placed = ({ x, y }: { readonly x: number; readonly y: number }): Vec2 => {
    const [dx, dy] = [x - first.x, y - first.y];
    return [v.pointsX + c * dx - s * dy, v.pointsY + s * dx + c * dy];
  };
  const holes = points.points.flatMap((point): Cutout[] => {
    const own = v.pointHoles?.find(({ name }) => name === point.name);
    const shape = own === undefined ? v.pointHole : own.shape;
    const [acrossMm, alongMm] = placed(point);
    return shape === null ? [] : [placeHole({ acrossMm, alongMm, shape }, point.name, FRAME)];
  });
  const names = points.points.map((p) => p.name).join(', ');
  return { holes, findings: [...pointFindings(points), ...strangers.map(({ name }) => unknown(name, `the points are ${names}`))] };
}

const unknown = (name: string, known: string): Finding => stop('unknown-point', `pointHoles names ${name}, but ${known}: name one of them.`);
