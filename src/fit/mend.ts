import { cross, dot, unit, sub, type Vec2 } from '../geometry/vec2.ts';
import type { AskedBend } from '../contract/asked.ts';
import { NORMAL95 } from '../statistics/student.ts';
import { type BoltHole, coarser } from './bolt-holes.ts';
import { boltingOf, chanceOf, chanceOver, playsOf } from './chance.ts';
import type { Pattern } from './pattern.ts';
import type { BoltMend, Slot } from '../contract/fit.ts';

/** A chance at least this high counts as good. */
export const GOOD_CHANCE = 0.95;

/**
 * What makes it likely that all bolts go in: the coarse holes of ISO 273, if they are enough;
 * otherwise slots, one hole after another, beginning with the one that strays most, each along the
 * direction in which it strays.
 */
export const mendOf = (pattern: Pattern, bends: readonly AskedBend[]): BoltMend => {
  const larger = pattern.holes.map((h): BoltHole => {
    const widthMm = coarser(h);
    return widthMm === undefined ? h : { ...h, widthMm, lengthMm: Math.max(h.lengthMm, widthMm) };
  });
  const opened = larger.filter((h, i) => h !== pattern.holes[i]);
  const chance = opened.length === 0 ? undefined : chanceOver(GOOD_CHANCE, pattern, larger);
  if (chance !== undefined)
    return {
      chance,
      openTo: opened.map((h) => ({ hole: h.name, name: h.key, diameterMm: h.widthMm })),
      slots: [],
    };
  return (
    slotted(pattern, bends) ?? { chance: chanceOf(pattern, pattern.holes), openTo: [], slots: [] }
  );
};

/** A part that needs more slots than this is better drilled in place. */
const MOST_SLOTS = 6;

const slotted = (pattern: Pattern, bends: readonly AskedBend[]): BoltMend | undefined => {
  const strays = straysOf(pattern);
  const order = strays
    .map((_, i) => i)
    .sort((a, b) => (strays[b] as Stray).sigmaMm - (strays[a] as Stray).sigmaMm);
  let holes = [...pattern.holes];
  const slots: Slot[] = [];
  // One hole stays round, to hold the part in its place.
  for (const i of order
    .slice(0, -1)
    .filter((k) => pattern.holes[k]?.isThreaded !== true)
    .slice(0, MOST_SLOTS)) {
    const { dir, sigmaMm } = strays[i] as Stray;
    const hole = holes[i] as BoltHole;
    // A slot has to take alone what two round holes share.
    const lengthMm = Math.ceil(Math.max(hole.lengthMm, hole.widthMm + 4 * NORMAL95 * sigmaMm));
    holes = holes.map((h, j) => (j === i ? { ...h, lengthMm, dir } : h));
    slots.push({
      hole: hole.name,
      name: hole.key,
      widthMm: hole.widthMm,
      lengthMm,
      ...namedDirection(dir, hole, bends),
    });
    const chance = chanceOver(GOOD_CHANCE, pattern, holes);
    if (chance !== undefined) return { chance, openTo: [], slots };
  }
  return undefined;
};

interface Stray {
  readonly dir: Vec2;
  readonly sigmaMm: number;
}

/**
 * The direction in which each hole strays most when the part lies as well as it can, and how far:
 * the larger principal axis of its errors.
 */
const straysOf = ({ spread, motions, holes }: Pattern): Stray[] => {
  const { settled } = boltingOf(motions, holes);
  const sums = holes.map(() => ({ xx: 0, xy: 0, yy: 0 }));
  for (let column = 0; column < (spread[0]?.length ?? 0); column += 1) {
    const left = settled(spread.map((row) => row[column] as number));
    holes.forEach((hole, i) => {
      const [along, across] = playsOf(hole);
      const [a, b] = [(left[3 * i] as number) * along, (left[3 * i + 1] as number) * across];
      const [x, y] = [a * hole.dir[0] - b * hole.dir[1], a * hole.dir[1] + b * hole.dir[0]];
      const sum = sums[i] as { xx: number; xy: number; yy: number };
      Object.assign(sum, { xx: sum.xx + x * x, xy: sum.xy + x * y, yy: sum.yy + y * y });
    });
  }
  return sums.map(({ xx, xy, yy }): Stray => {
    const lean = Math.atan2(2 * xy, xx - yy) / 2;
    const largest = (xx + yy) / 2 + Math.hypot((xx - yy) / 2, xy);
    return { dir: [Math.cos(lean), Math.sin(lean)], sigmaMm: Math.sqrt(Math.max(0, largest)) };
  });
};

/** A slot within this angle of a fold's direction, or of square to it, is described so, degrees. */
const NEAR_DEG = 10;

const namedDirection = (
  dir: Vec2,
  { at }: BoltHole,
  bends: readonly AskedBend[],
): Pick<Slot, 'directionDeg' | 'runs'> => {
  const deg = ((Math.atan2(dir[1], dir[0]) * 180) / Math.PI + 360) % 180;
  const directionDeg = (Math.round(deg * 10) / 10) % 180;
  const sine = Math.sin((NEAR_DEG * Math.PI) / 180);
  const far = ({ centreLine: [from, to] }: AskedBend): number =>
    Math.abs(cross(unit(sub(to, from)), sub(at, from)));
  const fold = bends
    .toSorted((a, b) => far(a) - far(b))
    .find(
      ({ centreLine: [from, to] }) =>
        Math.min(
          Math.abs(cross(unit(sub(to, from)), dir)),
          Math.abs(dot(unit(sub(to, from)), dir)),
        ) < sine,
    );
  if (fold === undefined) return { directionDeg, runs: `at ${directionDeg} degrees on the blank` };
  const along = unit(sub(fold.centreLine[1], fold.centreLine[0]));
  return {
    directionDeg,
    runs: `${Math.abs(cross(along, dir)) < sine ? 'along' : 'square to'} fold ${fold.id}`,
  };
};
