import { wholeUp } from '../geometry/tolerance.ts';

/** Pieces of one tube that are cut off bars of stock lengths. */
export interface BarAsk {
  /** Lengths, each once for every piece that is wanted, mm. */
  readonly piecesMm: readonly number[];
  /** Lengths in which the tube is bought, mm; as many of each as it takes. */
  readonly barsMm: readonly number[];
  /** Width of the saw's cut, mm. */
  readonly kerfMm: number;
}

export interface CutBar {
  readonly barMm: number;
  /** Which pieces, counted from 0, the longest first. */
  readonly pieces: readonly number[];
  /** What is left of the bar behind the last cut, mm. */
  readonly leftMm: number;
}

export interface BarPlan {
  readonly bars: readonly CutBar[];
  /** Pieces that are longer than any bar, counted from 0. */
  readonly tooLong: readonly number[];
  /** Whether no plan takes less tube; otherwise the search was ended, and one that takes less may exist. */
  readonly isBest: boolean;
}

/**
 * The plan that takes the least length of bars. Between two pieces goes a cut; a piece that takes all
 * of a bar needs none, so bars and pieces are each taken to be a cut longer. The longest piece that is
 * left goes onto every bar that is open, each remainder once, and onto a new one of every length; what
 * cannot become shorter than the best is left (branch and bound). Pieces of one length are tried in one
 * order alone.
 */
export function barPlan({ piecesMm, barsMm, kerfMm }: BarAsk): BarPlan {
  const rooms = [...new Set(barsMm)].toSorted((a, b) => a - b);
  const longest = rooms.at(-1) ?? 0;
  const order = piecesMm
    .map((mm, piece) => ({ mm, piece }))
    .toSorted((a, b) => b.mm - a.mm || a.piece - b.piece);
  const fits = order.filter(({ mm }) => mm <= longest + FITS_MM);
  const tooLong = order.filter(({ mm }) => mm > longest + FITS_MM).map(({ piece }) => piece);
  const search = new Search(
    fits.map(({ mm }) => mm + kerfMm),
    rooms.map((mm) => mm + kerfMm),
    kerfMm,
  );
  const found = search.best();
  const bars = found.bars.map(({ room, items, leftMm }): CutBar => ({
    barMm: room - kerfMm,
    pieces: items.map((i) => (fits[i] as { piece: number }).piece),
    leftMm: Math.max(0, leftMm - kerfMm),
  }));
  return { bars, tooLong: tooLong.toSorted((a, b) => a - b), isBest: found.isBest };
}

/** A piece that is longer than its bar by rounding alone still fits. */
const FITS_MM = 1e-6;
/** So many placings are tried; a plan of a job of some thirty pieces takes a few thousand. */
const MOST_TRIED = 200_000;

interface OpenBar {
  readonly room: number;
  readonly items: number[];
  leftMm: number;
}

class Search {
  #tried = 0;
  #best: { mm: number; bars: readonly OpenBar[] };
  readonly #open: OpenBar[] = [];
  /** Sum of the pieces from each on. */
  readonly #rest: number[];

  constructor(
    private readonly items: readonly number[],
    private readonly rooms: readonly number[],
    private readonly kerfMm: number,
  ) {
    this.#rest = [...items, 0];
    for (let i = items.length - 1; i >= 0; i -= 1)
      this.#rest[i] = (items[i] as number) + (this.#rest[i + 1] as number);
    this.#best = this.#greedy();
  }

  best(): { readonly bars: readonly OpenBar[]; readonly isBest: boolean } {
    this.#place(0, 0);
    return { bars: this.#best.bars, isBest: this.#tried <= MOST_TRIED };
  }

  #place(next: number, usedMm: number): void {
    this.#tried += 1;
    if (this.#tried > MOST_TRIED) return;
    const item = this.items[next];
    if (item === undefined) {
      if (usedMm < this.#best.mm - FITS_MM)
        this.#best = {
          mm: usedMm,
          bars: this.#open.map((bar) => ({ ...bar, items: [...bar.items] })),
        };
      return;
    }
    if (usedMm + this.#leastMore(next) >= this.#best.mm - FITS_MM) return;
    const seen = new Set<number>();
    for (const bar of this.#open) {
      const key = Math.round(bar.leftMm / FITS_MM);
      if (bar.leftMm < item - FITS_MM || seen.has(key)) continue;
      seen.add(key);
      bar.items.push(next);
      bar.leftMm -= item;
      this.#place(next + 1, usedMm);
      bar.leftMm += item;
      bar.items.pop();
    }
    for (const room of this.rooms) {
      if (room < item - FITS_MM) continue;
      this.#open.push({ room, items: [next], leftMm: room - item });
      this.#place(next + 1, usedMm + room - this.kerfMm);
      this.#open.pop();
    }
  }

  /** The least tube that has to be bought beside what is open. */
  #leastMore(next: number): number {
    const least = this.items.at(-1) ?? 0;
    const inOpen = this.#open.reduce(
      (sum, { leftMm }) => sum + (leftMm < least - FITS_MM ? 0 : leftMm),
      0,
    );
    const missing = (this.#rest[next] as number) - inOpen;
    if (missing <= FITS_MM) return 0;
    const shares = this.rooms.map((room) => (room - this.kerfMm) / room);
    const perMm = missing * Math.min(...shares);
    // Bars come whole: no less than the shortest one, and of one length no less than a whole number.
    const [only, ...others] = this.rooms;
    if (only === undefined) return 0;
    return others.length === 0
      ? wholeUp(missing / only) * (only - this.kerfMm)
      : Math.max(perMm, only - this.kerfMm);
  }

  /** Each piece on the first bar that takes it, new bars as long as they come. */
  #greedy(): { mm: number; bars: readonly OpenBar[] } {
    const bars: OpenBar[] = [];
    const room = this.rooms.at(-1) ?? 0;
    this.items.forEach((item, i) => {
      const bar = bars.find(({ leftMm }) => leftMm >= item - FITS_MM);
      if (bar === undefined) bars.push({ room, items: [i], leftMm: room - item });
      else {
        bar.items.push(i);
        bar.leftMm -= item;
      }
    });
    return { mm: bars.length * (room - this.kerfMm), bars };
  }
}
