import { cosDeg, sinDeg } from '../geometry/degrees.ts';
import { loopExtents } from '../geometry/extents.ts';
import type { Loop } from '../geometry/loop.ts';
import { middle, sub, type Vec2 } from '../geometry/vec2.ts';
import type { CommonValues } from '../input/common.ts';
import type { FoldLine } from '../input/fold-lines.ts';
import { meeting, type NamedHole } from '../input/hole-size.ts';
import type { SizedHole } from '../input/hole-shape.ts';
import type { HoleSpec } from '../input/holes.ts';
import { placeHole, placeHoles } from '../input/place-hole.ts';
import type { GivenPoints } from '../input/points.ts';
import { pointFindings, residualFigures } from '../input/survey-report.ts';
import type { Built } from '../input/template.ts';
import { type Finding, stop } from '../model/finding.ts';
import type { Cutout } from '../model/part.ts';
import { assemble } from './assemble.ts';
import { withJoggles, type WrittenFoldLine } from './joggle.ts';
import { splitPlate } from './split-plate.ts';

/** A traced plate as it is asked for. */
export interface Plate extends CommonValues {
  readonly outline: Loop;
  readonly folds: readonly FoldLine[];
  readonly holes: readonly HoleSpec[];
  readonly cutouts: readonly Loop[];
  readonly points: GivenPoints | undefined;
  readonly pointHole: SizedHole;
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
  const split = splitPlate(v.outline, withJoggles(inTurn(v.folds, v.outline), v.thicknessMm, v.measure), holes, { insideRadiusMm: v.insideRadiusMm, slots });
  if ('findings' in split) return { findings: [...measured.findings, ...split.findings] };
  const figures = v.points === undefined ? [] : residualFigures(v.points);
  return { part: assemble(v, split), findings: measured.findings, ...(figures.length > 0 && { report: { figures } }) };
}

/**
 * Fold lines counter-clockwise round the middle of the plate's extents, beginning at its left, the nearer first, so that
 * the order in which they are written makes no difference to the part.
 */
const inTurn = (lines: readonly FoldLine[], outline: Loop): readonly WrittenFoldLine[] => {
  const { minX, minY, maxX, maxY } = loopExtents(outline) ?? { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  const centre: Vec2 = [(minX + maxX) / 2, (minY + maxY) / 2];
  const placed = lines.map((line, index) => {
    const [x, y] = sub(middle(line.from, line.to), centre);
    const turn = sixDecimals((Math.atan2(y, x) * 180) / Math.PI);
    return { line: { ...line, written: index + 1 }, key: [turn === -180 ? 180 : turn, sixDecimals(Math.hypot(x, y)), ...[...line.from, ...line.to].map(sixDecimals)] };
  });
  const firstDifference = (a: readonly number[], b: readonly number[]): number => a.map((n, i) => n - (b[i] ?? 0)).find((d) => d !== 0) ?? 0;
  return placed.toSorted((a, b) => firstDifference(a.key, b.key)).map(({ line }) => line);
};

/** Far below what a person can tell apart, far above the noise of the arithmetic. */
const sixDecimals = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;

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
    const hole = own === undefined ? v.pointHole : own.hole;
    const [acrossMm, alongMm] = placed(point);
    return hole === null ? [] : [placeHole({ acrossMm, alongMm, ...meeting(hole, 'points') }, point.name, FRAME)];
  });
  const names = points.points.map((p) => p.name).join(', ');
  return { holes, findings: [...pointFindings(points), ...strangers.map(({ name }) => unknown(name, `the points are ${names}`))] };
}

const unknown = (name: string, known: string): Finding => stop('unknown-point', `pointHoles names ${name}, but ${known}: name one of them.`);
