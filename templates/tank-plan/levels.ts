import { LITRES_PER_MM3, wholeDown } from '../../src/template.ts';
import type { HeldAt, Vec2 } from '../../src/template.ts';
import { type Body, HALVINGS, levelAt, levelOfMm, type Rod, volumeBelowMm3 } from './solid.ts';

/** What a body holds below a level, litres. */
export const litresBelow = (body: Body, levelMm: number): number =>
  volumeBelowMm3(body, levelAt(levelMm)) * LITRES_PER_MM3;

/** The level of so many litres, mm. */
export const levelOf = (body: Body, litres: number): number =>
  levelOfMm(body, litres / LITRES_PER_MM3);

/** The four ways in which a vehicle may lean, by the end of the plan that goes down. */
export const TILTS: readonly { readonly down: string; readonly way: Vec2 }[] = [
  { down: 'left (towards less x)', way: [-1, 0] },
  { down: 'right (towards more x)', way: [1, 0] },
  { down: 'front (towards less y)', way: [0, -1] },
  { down: 'back (towards more y)', way: [0, 1] },
];

/** A sender that hangs from the top on a plumb line, and where its reading begins and ends. */
export interface Sender {
  readonly rod: Rod;
  /** Below the underside of the top. */
  readonly lengthMm: number;
  /** How far over its end the level stands when it reads empty. */
  readonly emptyMm: number;
  /** How far below the underside of the top the level stands when it reads full. */
  readonly fullMm: number;
}

/** Levels at which it reads empty and full. */
export const readingLevels = (
  s: Sender,
): { readonly emptyAt: number; readonly fullAt: number } => ({
  emptyAt: s.rod.highMm - s.lengthMm + s.emptyMm,
  fullAt: s.rod.highMm - s.fullMm,
});

/** The longest sender, in steps in which it is sold, that leaves air below it. */
export const longestMm = (rod: Rod, footMm: number, stepMm: number): number =>
  wholeDown((rod.highMm - rod.lowMm - footMm) / stepMm) * stepMm;

/** The length of a sender that reads empty when a reserve is left, mm: the level of it, found. */
export const lengthForReserve = (
  body: Body,
  rod: Rod,
  emptyMm: number,
  reserveLitres: number,
): number => rod.highMm - levelOf(body, reserveLitres) + emptyMm;

/** Two tanks that share their level through a pipe, in one frame of heights. */
export interface Linked {
  /** What the tank that is drawn from holds up to a level, litres, and the other one. */
  readonly drawn: (levelMm: number) => number;
  readonly other: (levelMm: number) => number;
  /** What the other one keeps when it has run out through the pipe down to a level, litres. */
  readonly kept: (levelMm: number) => number;
  /** Lower edge of the pipe: below it the other tank keeps what it has. */
  readonly pipeMm: number;
}

/** What a vessel of a dip table holds up to a level, litres, evenly between its rows. */
export const heldBelow = (rows: readonly HeldAt[], levelMm: number): number => {
  const above = rows.findIndex(({ heightMm }) => heightMm > levelMm);
  if (above === 0) return 0;
  const [from, to] = [rows[above - 1], rows[above]];
  if (from === undefined || to === undefined) return rows.at(-1)?.litres ?? 0;
  const share = (levelMm - from.heightMm) / (to.heightMm - from.heightMm);
  return from.litres + share * (to.litres - from.litres);
};

/**
 * Litres in both when they were full and have been drawn down to a level in the one: the other
 * follows as far as the pipe.
 */
export const pairLitres = (pair: Linked, levelMm: number): number =>
  pair.drawn(levelMm) + leftBehind(pair, levelMm);

/** What the height of the pipe leaves behind in the other tank when the one is drawn to a level. */
export const leftBehind = ({ kept, pipeMm }: Linked, drawnToMm: number): number =>
  kept(Math.max(pipeMm, drawnToMm));

/**
 * The level in the tank that is drawn from, between two levels, when both were full and so many
 * litres are left.
 */
export const pairLevel = (
  pair: Linked,
  litres: number,
  [lowMm, highMm]: readonly [number, number],
): number => {
  let [low, high] = [lowMm, highMm];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (pairLitres(pair, middle) < litres) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
};
