import { FOLDING, type FoldingCase } from './cases.ts';
import { depthIn, mayBeIn, type Polygon, sceneOf } from './replay-machine.ts';
import { cross3d, lay, type Laid, type Point3, type Posed, samples } from './replay-part.ts';
import type { PlanResult } from '../../src/contract/panel-plan.ts';

/**
 * Goes through a fold plan at 1 degree with code of its own - the published section polygons,
 * points turned about the lines of the blank, sampling - and tells every contact deeper than the
 * gap allows, and every tool that does not fit.
 */
export const replay = (
  given: FoldingCase,
  plan: NonNullable<PlanResult['foldPlan']>,
  apart = 8,
): string[] => {
  const faults: string[] = [];
  const angles = new Map<string, number>();
  const brake = given.machine.profile === 'pressbrake-1250';
  for (const step of plan.steps) {
    const stroke = typeof step.bend === 'string' ? [step.bend] : [...step.bend];
    const bends = stroke.map(
      (id) => given.part.bends.find((b) => b.id === id) as FoldingCase['part']['bends'][number],
    );
    // A fold that is made in two strokes goes on from where it stands; a folder's leaf comes up to
    // it from its rest.
    const from = Math.max(...stroke.map((id) => Math.abs(angles.get(id) ?? 0)));
    if (from > 0 && bends.some((b) => step.inTwo?.stroke !== 2 || from >= Math.abs(b.angle_deg)))
      faults.push(`${stroke.join()} is made twice`);
    const taken: Taken[] = [];
    let lines: Laid['lines'] = [];
    for (let deg = brake ? from : 0; deg <= step.stopAtDeg; deg++) {
      for (const b of bends) angles.set(b.id, Math.sign(b.angle_deg) * Math.max(deg, from));
      const laid = brake
        ? spread(lay(given.part, angles, stroke, step.clampedSide), deg)
        : lay(given.part, angles, stroke, step.clampedSide);
      lines = laid.lines;
      const scene = sceneOf(given, deg);
      const at = `${stroke.join('+')} at ${deg} deg`;
      for (const piece of [...laid.still, ...laid.moving]) {
        for (const [name, bodies] of Object.entries(scene.fixed)) {
          if (isIn(piece, apart, bodies)) faults.push(`${at}: ${piece.panel} in the ${name}`);
        }
        if (isIn(piece, apart, scene.tools))
          taken.push(
            ...inTools(
              samples(piece, apart, (v) => Math.hypot(...v)),
              scene.tools,
            ),
          );
      }
      faults.push(...crossings(laid, at));
    }
    faults.push(
      ...toolFaults(step.fingersMm, lines, taken, given).map((f) => `${stroke.join('+')}: ${f}`),
    );
    for (const b of bends)
      angles.set(
        b.id,
        step.inTwo?.stroke === 1 ? Math.sign(b.angle_deg) * step.inTwo.keepsDeg : b.angle_deg,
      );
  }
  if (given.part.bends.some((b) => angles.get(b.id) !== b.angle_deg))
    faults.push('not every bend is made');
  return [...new Set(faults)];
};

/** Contacts up to this deep are left to the gap and to the sampling, mm. */
const SLACK_MM = 0.35;

const isIn = (piece: Posed, apart: number, bodies: readonly Polygon[]): boolean => {
  const near = bodies.filter((body) => mayBeIn(body, piece.corners, SLACK_MM));
  if (near.length === 0) return false;
  const points = samples(piece, apart, ([x, y]) => Math.hypot(x, y));
  return near.some((body) => points.some(([x, y]) => depthIn(body, x, y) > SLACK_MM));
};

const crossings = (laid: Laid, at: string): string[] =>
  laid.moving.flatMap((m) =>
    laid.still.flatMap((s) =>
      cross3d(m, s, SLACK_MM) ? [`${at}: ${m.panel} through ${s.panel}`] : [],
    ),
  );

/** On a press brake both legs rise by half the angle. */
const spread = (laid: Laid, deg: number): Laid => {
  const [c, s] = [Math.cos((deg * Math.PI) / 360), Math.sin((deg * Math.PI) / 360)];
  const turned = (pieces: readonly Posed[]): Posed[] =>
    pieces.map((p) => ({
      ...p,
      corners: p.corners.map(([x, y, z]): Point3 => [c * x + s * y, -s * x + c * y, z]),
    }));
  return { ...laid, still: turned(laid.still), moving: turned(laid.moving) };
};

type Taken = readonly [from: number, to: number];

const inTools = (points: readonly Point3[], tools: readonly Polygon[]): Taken[] => {
  const zs = points
    .filter(([x, y]) => tools.some((t) => depthIn(t, x, y) > SLACK_MM))
    .map((p) => p[2]);
  return zs.length === 0 ? [] : [[Math.min(...zs), Math.max(...zs)]];
};

/**
 * Fingers come from the set, each once, fit between what stands there, and leave no more of the
 * fold than is allowed.
 */
const toolFaults = (
  rooms: readonly (readonly number[])[],
  lines: Laid['lines'],
  taken: readonly Taken[],
  given: FoldingCase,
): string[] => {
  const length = lines.reduce((sum, [from, to]) => sum + to - from, 0);
  const [from, to] = [Math.min(...lines.map((l) => l[0])), Math.max(...lines.map((l) => l[1]))];
  const middle = taken.filter(
    ([a, b]) => b > from + SLACK_MM && a < to - SLACK_MM && b - a > SLACK_MM,
  );
  const widths = FOLDING.machine_profiles[given.machine.profile]?.fields['finger_widths_mm']
    ?.value as readonly number[] | undefined;
  if (widths === undefined)
    return middle.length > 0 && rooms.length < 2 ? ['something stands in the fold'] : [];
  const left = [...widths];
  for (const width of rooms.flat()) {
    const i = left.indexOf(width);
    if (i < 0) return [`no finger of ${width} mm is left`];
    left.splice(i, 1);
  }
  const block = rooms.flat().reduce((a, b) => a + b, 0);
  const faults = block < length - 30 ? [`${block} mm of fingers for ${length} mm`] : [];
  if (rooms.length > 1) return faults;
  const centre = (from + to) / 2;
  const before = Math.max(
    -Infinity,
    ...taken.filter((t) => (t[0] + t[1]) / 2 < centre).map((t) => t[1]),
  );
  const behind = Math.min(
    Infinity,
    ...taken.filter((t) => (t[0] + t[1]) / 2 >= centre).map((t) => t[0]),
  );
  return block > behind - before
    ? [...faults, `${block} mm of fingers between ${before} and ${behind}`]
    : faults;
};
