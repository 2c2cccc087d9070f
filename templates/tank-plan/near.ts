import {
  advise,
  atMost,
  figure,
  NOISE_MM,
  orMore,
  pointGap,
  reachOf,
  refuse,
} from '../../src/template.ts';
import type { Finding, HoleSpec, Loop, Vec2 } from '../../src/template.ts';
import { FITTING_GAP_MM, halfHeightMm, TOP_HOLES } from './fittings.ts';
import type { TankPlan } from './inputs.ts';
import { levelOf, litresBelow } from './levels.ts';
import { bodyOf, type Shape } from './planes.ts';
import { type Plane, reachMm } from './solid.ts';

/** A hole with the input that it came from, in the plan. */
interface Fitting {
  readonly input: (typeof TOP_HOLES)[number] | 'drain';
  readonly number: string;
  readonly at: Vec2;
  readonly reachMm: number;
}

const fittingsIn = (v: TankPlan, inputs: readonly Fitting['input'][]): Fitting[] =>
  inputs.flatMap((input) =>
    v[input].map(({ acrossMm, alongMm, shape, number }) => ({
      input,
      number,
      at: [acrossMm, alongMm] as const,
      reachMm: reachOf(shape, v.thicknessMm),
    })),
  );

/**
 * Fittings in the top, or in the floor, whose edges lie so near to each other or to the seam along a
 * side that no torch gets between. Holes of one input, a sender and its screws, are one fitting.
 */
export const fittingsTooNear = (v: TankPlan, { low, high }: Shape): Finding[] =>
  (
    [
      [TOP_HOLES, high],
      [['drain'], low],
    ] as const
  ).flatMap(([inputs, corners]) => {
    const all = fittingsIn(v, inputs);
    const seam: Loop = corners.map(([x, y]) => ({ x, y, bulge: 0 }));
    return all.flatMap((one, i) => [
      ...nearSeam(one, seam),
      ...all.slice(i + 1).flatMap((other) => nearOther(one, other)),
    ]);
  });

const nearSeam = ({ input, number, at, reachMm: reach }: Fitting, seam: Loop): Finding[] => {
  const gap = pointGap(at, seam) - reach;
  // One that reaches over the wall is refused as such.
  return gap >= FITTING_GAP_MM - NOISE_MM || gap < -NOISE_MM
    ? []
    : [
        advise(
          'fitting-too-near',
          [input],
          `hole ${number} of ${input} leaves ${figure(gap)} to the side, where the seam is, and a bead all round it and a torch take ${FITTING_GAP_MM}`,
          [],
          `move it in by ${figure(FITTING_GAP_MM - gap)}`,
        ),
      ];
};

const nearOther = (one: Fitting, other: Fitting): Finding[] => {
  if (one.input === other.input) return [];
  const apart = Math.hypot(one.at[0] - other.at[0], one.at[1] - other.at[1]);
  const gap = apart - one.reachMm - other.reachMm;
  return gap >= FITTING_GAP_MM - NOISE_MM
    ? []
    : [
        advise(
          'fitting-too-near',
          [one.input, other.input],
          gap < 0
            ? `hole ${one.number} of ${one.input} and hole ${other.number} of ${other.input} overlap by ${figure(-gap)}`
            : `hole ${one.number} of ${one.input} leaves ${figure(gap)} to hole ${other.number} of ${other.input}, and two beads and a torch between them take ${FITTING_GAP_MM}`,
          [],
          `move them ${figure(FITTING_GAP_MM - gap)} further apart`,
        ),
      ];
};

/** Holes of the link pipe above the level to which the tank is filled: nothing runs through them. */
export const linkAboveFill = (v: TankPlan, shape: Shape): Finding[] => {
  if (v.link.length === 0) return [];
  const body = bodyOf(shape);
  const grossL = litresBelow(body, reachMm(body)[1]);
  const level = levelOf(body, (grossL * v.fillLimit) / 100);
  /** The least whole percent that fills the tank over a level. */
  const fillOf = (levelMm: number): number =>
    Math.floor((100 * litresBelow(body, levelMm)) / grossL) + 1;
  const upright = Math.sqrt(1 - (shape.planes.walls[v.linkOn - 1] as Plane).normal[2] ** 2);
  return v.link.flatMap((hole: HoleSpec) => {
    const half = halfHeightMm(hole, v.thicknessMm) * upright;
    const lowest = hole.alongMm - half;
    return lowest < level
      ? []
      : [
          refuse(
            'link-above-fill',
            ['link', 'fillLimit'],
            `hole ${hole.number} of link begins at ${figure(lowest)}, and fillLimit ${figure(v.fillLimit)} fills the tank up to ${figure(level)}: nothing runs through it`,
            lowest >= reachMm(body)[1] ? [] : [orMore('fillLimit', fillOf(lowest), 0)],
            `give it ${atMost(level - half)} or less from zero, so that all of it is covered`,
          ),
        ];
  });
};
