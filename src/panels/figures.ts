import { shown } from '../forms/given.ts';
import type { InputProblem } from '../forms/problem.ts';
import { figure as shownFigure } from '../text/figures.ts';
import { nearest, nearestFew } from '../text/nearest.ts';
import { parseAngle, parseLength, parseNumber } from '../text/units.ts';

/**
 * The figures of a part that may name each other: `base.width/2 - 3`. Each is worked out when it is
 * asked for, once; what goes round in a circle, and what names nothing, is told where it stands.
 */

/** What a figure is, and what it may be, in mm, degrees or pieces, inclusive. */
export interface Limits {
  readonly kind: 'length' | 'angle' | 'count';
  readonly least: number;
  readonly most: number;
}

export const LENGTH: Limits = { kind: 'length', least: 0, most: 10_000 };
export const PLACE: Limits = { kind: 'length', least: -10_000, most: 10_000 };

const PARSERS = { length: parseLength, angle: parseAngle, count: parseNumber } as const;
const NOUNS = { length: 'a length', angle: 'an angle', count: 'a whole number' } as const;
const UNITS = { length: ' mm', angle: ' degrees', count: '' } as const;

/** Works out the value of a name, or gives nothing where that has been told as a problem. */
export type Work = () => number | undefined;

/** A figure as it was given, or nothing. */
export type GivenFigure = number | string | undefined;

export class Figures {
  readonly problems: InputProblem[];
  readonly #known: Map<string, Work>;
  readonly #values: Map<string, number | undefined>;
  /** What is being worked out, one for the sake of the other. */
  readonly #busy: string[];
  /** What stands before the names of a piece where other pieces name them: `box.`. */
  readonly #before: string;

  /** Figures of their own, or those of one piece among the figures of `all`. */
  constructor(all?: Figures, piece = '') {
    this.problems = all?.problems ?? [];
    this.#known = all === undefined ? new Map<string, Work>() : all.#known;
    this.#values = all === undefined ? new Map<string, number | undefined>() : all.#values;
    this.#busy = all === undefined ? [] : all.#busy;
    this.#before = piece === '' ? '' : `${nameInSum(piece)}.`;
  }

  /** The same figures as they are seen from one piece, whose own need no name in front. */
  ofPiece(piece: string): Figures {
    return new Figures(this, piece);
  }

  /** From now on `name` stands for a figure. */
  define(name: string, work: Work): void {
    this.#known.set(`${this.#before}${name}`, work);
  }

  get names(): readonly string[] {
    const [all, before] = [[...this.#known.keys()], this.#before];
    if (before === '') return all;
    const own = all.filter((name) => name.startsWith(before));
    return [
      ...own.map((name) => name.slice(before.length)),
      ...all.filter((n) => !own.includes(n)),
    ];
  }

  /** The name under which a figure is kept that is named so here. */
  #whole(name: string): string {
    const own = `${this.#before}${name}`;
    return this.#known.has(own) ? own : name;
  }

  /** Tells what is wrong, once, however often it is come across. */
  problem(input: string, given: unknown, allowed: string, mend?: string): undefined {
    const told = given === undefined ? 'nothing' : shown(given);
    if (this.problems.some((p) => p.input === input && p.given === told && p.allowed === allowed))
      return undefined;
    this.problems.push({
      input,
      given: told,
      allowed,
      ...(mend !== undefined && { mend }),
    });
    return undefined;
  }

  /** Does a thing for the sake of another; nothing where it comes round to itself. */
  within<T>(node: string, at: string, given: unknown, work: () => T): T | undefined {
    return this.#doing(`${this.#before}${node}`, at, given, work);
  }

  #doing<T>(node: string, at: string, given: unknown, work: () => T): T | undefined {
    const circle = this.#busy.indexOf(node);
    if (circle >= 0)
      return this.problem(
        at,
        given,
        'lengths that do not need themselves',
        `it goes round in a circle: ${inShort([...this.#busy.slice(circle), node]).join(' -> ')}`,
      );
    this.#busy.push(node);
    try {
      return work();
    } finally {
      this.#busy.pop();
    }
  }

  /** The value of a name; `at` is where it stands, `given` what stands there. */
  named(name: string, at: string, given: unknown): number | undefined {
    const whole = this.#whole(name);
    const work = this.#known.get(whole);
    if (work === undefined) {
      const names = this.names;
      const meant = nearest(name, names);
      return this.problem(
        at,
        given,
        `figures and sums of lengths of this part, such as ${nearestFew(name, names, 3).join(', ')}`,
        `there is no ${name}${meant === undefined ? '' : `; did you mean ${meant}?`}`,
      );
    }
    if (this.#values.has(whole)) return this.#values.get(whole);
    const value = this.#doing(whole, at, given, work);
    this.#values.set(whole, value);
    return value;
  }

  /** A figure within its limits; nothing where that has been told as a problem. */
  read(given: number | string, at: string, limits: Limits): number | undefined {
    const { kind, least, most } = limits;
    const value = typeof given === 'number' ? given : this.#sum(given, at, kind);
    if (value === undefined) return undefined;
    const allowed = `${NOUNS[kind]} from ${shownFigure(least)} to ${shownFigure(most)}${UNITS[kind]}`;
    if (!(value >= least && value <= most) || (kind === 'count' && !Number.isInteger(value)))
      return this.problem(
        at,
        given,
        allowed,
        typeof given === 'string' && !Number.isFinite(Number(given))
          ? `it comes to ${shownFigure(value)}`
          : undefined,
      );
    return value;
  }

  #sum(given: string, at: string, kind: Limits['kind']): number | undefined {
    const names = new Map<string, number>();
    for (const name of namesIn(given)) {
      if (!this.#known.has(this.#whole(name)) && !name.includes('.')) continue;
      const value = this.named(name, at, given);
      if (value === undefined) return undefined;
      names.set(name, value);
    }
    const parsed = PARSERS[kind](given, names);
    return parsed.ok
      ? parsed.value
      : this.problem(at, given, `${NOUNS[kind]}, or a sum of lengths of this part`, parsed.reason);
  }

  /**
   * A text of a notation of its own, such as holes, with figures in place of the names; nothing where
   * one has none.
   */
  put(text: string, at: string): string | undefined {
    let isWhole = true;
    const whole = text.replace(NAME, (name) => {
      if (!name.includes('.') && !this.#known.has(name)) return name;
      const value = this.named(name, at, text);
      if (value === undefined) isWhole = false;
      return value === undefined ? name : plain(value);
    });
    return isWhole ? whole : undefined;
  }
}

/** A long way round by where it begins and ends. */
const inShort = (names: readonly string[]): readonly string[] =>
  names.length <= 8 ? names : [...names.slice(0, 4), '...', ...names.slice(-3)];

const NAME = /[\p{L}_][\p{L}\p{N}_]*(?:\.[\p{L}_][\p{L}\p{N}_]*)*/gu;

const namesIn = (text: string): string[] => [...text.matchAll(NAME)].map(([name]) => name);

/** As it stands in a text: no exponent, in brackets where a sign would be a second one. */
const plain = (value: number): string => {
  const text = String(value).includes('e') ? value.toFixed(12) : String(value);
  return value < 0 ? `(${text})` : text;
};

/** A name as it stands in a sum: a space or a hyphen would end it there. */
export const nameInSum = (name: string): string => name.trim().replace(/[\s-]+/g, '_');
