import type { BendSheet } from './bend-sheet.ts';

/** What a bender needs of straight tube. */
export interface BenderNeeds {
  /** Held by the clamp before a bend, mm. */
  readonly clampMm: number;
  /** Under the follower behind a bend, mm. */
  readonly followerMm: number;
}

/** One bend in the order in which they are made. */
export interface Pull {
  /** Which bend of the sheet, counted from 0. */
  readonly bend: number;
  /** The end of the tube that is nearer to the clamp. */
  readonly clampAt: 'lead' | 'tail';
  /** How much straight tube the clamp, and the follower, are short of; 0 where there is enough, mm. */
  readonly clampShortMm: number;
  readonly followerShortMm: number;
}

export interface PullOrder {
  readonly pulls: readonly Pull[];
  /** What has to be left on at the ends for the bender, mm. */
  readonly gripMm: { readonly lead: number; readonly tail: number };
}

type Side = Pull['clampAt'];

/**
 * The order of bends that keeps clamp and follower on straight tube, as far as there is one: the exact
 * best by dynamic programming from end to end. Of two neighbours one is bent first; the other then has
 * no more than the straight between them on that side. So what an order costs is a sum over pairs of
 * neighbours and over the two ends, where tube can be left on. Among equals the tube is bent from its
 * leading end, and never turned end for end.
 */
export function pullOrder({ bends, straightsMm }: BendSheet, needs: BenderNeeds): PullOrder {
  const needOf = (clampAt: Side, towards: Side): number =>
    clampAt === towards ? needs.clampMm : needs.followerMm;
  const short = (i: number, needMm: number): number =>
    Math.max(0, needMm - Math.max(0, straightsMm[i] ?? 0));
  if (bends.length === 0) return { pulls: [], gripMm: { lead: 0, tail: 0 } };
  let ways: Way[] = SIDES.map((clampAt) => ({
    cost: GRIP * short(0, needOf(clampAt, 'lead')) + (clampAt === 'tail' ? OTHER_END : 0),
    clampAt,
    isAfter: true,
    before: undefined,
  }));
  for (let i = 1; i < bends.length; i += 1) {
    ways = SIDES.map((clampAt) => {
      const from = ways.flatMap((before) =>
        [true, false].map((isAfter): Way => {
          const seen = isAfter ? needOf(clampAt, 'lead') : needOf(before.clampAt, 'tail');
          const turned = before.clampAt === clampAt ? 0 : TURNED;
          const against = isAfter === (clampAt === 'lead') ? 0 : AGAINST;
          return {
            cost:
              before.cost +
              MISSING * short(i, seen) +
              turned +
              against +
              (clampAt === 'tail' ? OTHER_END : 0),
            clampAt,
            isAfter,
            before,
          };
        }),
      );
      return from.reduce((best, way) => (way.cost < best.cost - EQUAL_ORDERS ? way : best));
    });
  }
  const last = bends.length;
  const best = ways
    .map((way) => ({ ...way, cost: way.cost + GRIP * short(last, needOf(way.clampAt, 'tail')) }))
    .reduce((a, b) => (b.cost < a.cost - EQUAL_ORDERS ? b : a));
  return told(sequenceOf(best), { bends, straightsMm }, needs);
}

interface Way {
  readonly cost: number;
  readonly clampAt: Side;
  /** Whether it is bent after its neighbour towards the leading end. */
  readonly isAfter: boolean;
  readonly before: Way | undefined;
}

const SIDES: readonly Side[] = ['lead', 'tail'];

// What an order costs, per millimetre that is missing for good, per millimetre that is left on at an
// end and cut off, and for what is only a nuisance. These weigh orders and measure nothing.
const MISSING = 1000;
const GRIP = 1;
const TURNED = 50;
const AGAINST = 5;
const OTHER_END = 1;
const EQUAL_ORDERS = 1e-9;

/** Bends in their order: runs in which each has to wait for the one behind it are made backwards. */
const sequenceOf = (last: Way): { readonly bend: number; readonly clampAt: Side }[] => {
  const ways: Way[] = [];
  for (let way: Way | undefined = last; way !== undefined; way = way.before) ways.unshift(way);
  const runs: { bend: number; clampAt: Side }[][] = [];
  ways.forEach(({ clampAt, isAfter }, bend) => {
    const run = runs.at(-1);
    if (isAfter || run === undefined) runs.push([{ bend, clampAt }]);
    else run.unshift({ bend, clampAt });
  });
  return runs.flat();
};

/** The order followed bend by bend, with the straight tube that there is at each moment. */
const told = (
  sequence: readonly { readonly bend: number; readonly clampAt: Side }[],
  sheet: Pick<BendSheet, 'bends' | 'straightsMm'>,
  { clampMm, followerMm }: BenderNeeds,
): PullOrder => {
  const bent = new Set<number>();
  const gripMm = { lead: 0, tail: 0 };
  const pulls = sequence.map(({ bend, clampAt }): Pull => {
    const shortAt = (towards: Side): number => {
      const needMm = clampAt === towards ? clampMm : followerMm;
      const { roomMm, isToEnd } = straightFrom(sheet, bend, towards, bent);
      const missing = Math.max(0, needMm - roomMm);
      if (!isToEnd) return missing;
      gripMm[towards] = Math.max(gripMm[towards], missing);
      return 0;
    };
    const [lead, tail] = [shortAt('lead'), shortAt('tail')];
    bent.add(bend);
    return clampAt === 'lead'
      ? { bend, clampAt, clampShortMm: lead, followerShortMm: tail }
      : { bend, clampAt, clampShortMm: tail, followerShortMm: lead };
  });
  return { pulls, gripMm };
};

/** Straight tube beside a bend, as far as the next that is bent already or the end. */
const straightFrom = (
  { bends, straightsMm }: Pick<BendSheet, 'bends' | 'straightsMm'>,
  bend: number,
  towards: Side,
  bent: ReadonlySet<number>,
): { readonly roomMm: number; readonly isToEnd: boolean } => {
  const step = towards === 'lead' ? -1 : 1;
  let roomMm = 0;
  for (let i = bend; ; i += step) {
    roomMm += straightsMm[step < 0 ? i : i + 1] ?? 0;
    const next = bends[i + step];
    if (next === undefined) return { roomMm, isToEnd: true };
    if (bent.has(i + step)) return { roomMm, isToEnd: false };
    roomMm += next.arcMm;
  }
};
