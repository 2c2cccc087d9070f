import type { Reader } from '../../forms/field.ts';
import { FINGERS, FOLDER } from '../../shop/folder.ts';
import { BRAKE } from '../../shop/press-brake.ts';
import type { Machine } from '../../model/machine.ts';
import { list } from '../../forms/sections.ts';
import { sheet } from '../../shop/stock.ts';
import { type Answer, countedWidths, lengthsOf, sheetsOf } from './answers.ts';

/** A question whose answer is a value of the shop file. */
export interface Asked<T> {
  readonly ask: string;
  /** How it is measured at the machine, in one line. */
  readonly help?: string;
  readonly read: (text: string) => Answer<T>;
  /** Whether it has to be answered; otherwise an empty answer leaves it as it is. */
  readonly isNeeded?: boolean;
}

/** A question about a figure of a machine, with its names in the file from the machine down. */
export interface AskedFigure extends Asked<unknown> {
  readonly path: readonly string[];
}

/** Answers that a reader of the shop file takes, and what it allows otherwise. */
export const by =
  <T>(reader: Reader<T>) =>
  (text: string): Answer<T> => {
    const read = reader.read(text);
    if (read.ok) return read;
    const [flaw] = read.flaws;
    return { ok: false, why: `allowed: ${flaw?.allowed ?? ''}` };
  };

/** Answers in a notation of their own, which then have to suit the reader. */
export const written =
  <T>(parse: (text: string) => Answer<T>, reader: Reader<unknown>) =>
  (text: string): Answer<T> => {
    const parsed = parse(text);
    if (!parsed.ok) return parsed;
    const read = reader.read(parsed.value);
    return read.ok
      ? parsed
      : { ok: false, why: `allowed: ${[...new Set(read.flaws.map((f) => f.allowed))].join('; ')}` };
  };

const LENGTH: AskedFigure = {
  path: ['workingLength'],
  ask: 'Longest fold that it makes, mm',
  help: 'Tape: from end to end of the clamp, or of the punch.',
  read: by(FOLDER.workingLength),
};

const RATING: AskedFigure = {
  path: ['capacity'],
  ask: 'Thickest mild steel by its plate, mm',
  help: 'As the plate or the papers say it, for the whole length.',
  read: by(FOLDER.capacity),
};

/** Asked before the hardest fold and the test folds. */
export const PLATE: readonly AskedFigure[] = [LENGTH, RATING];

const NOSE: readonly AskedFigure[] = [
  {
    path: ['noseRadii'],
    ask: 'Nose radius, mm; with commas where there are several, 0 for a sharp one',
    help: 'Radius gauge against the edge of the nose, or the shank of a drill twice as thick.',
    read: written(lengthsOf, FOLDER.noseRadii),
  },
  {
    path: ['noseSetback'],
    ask: 'Nose gap (set-back), mm, as it is set now',
    help: 'Leaf up at 90 degrees: feeler gauges or a drill shank between its face and the nose.',
    read: by(FOLDER.noseSetback),
  },
];

const OPENING: AskedFigure = {
  path: ['clampOpening'],
  ask: 'Clamp opening, mm',
  help: 'Clamp up as far as it goes: tape or square from the bed to the underside of the nose.',
  read: by(FOLDER.clampOpening),
};

const FINGER_FIGURES: readonly AskedFigure[] = [
  {
    path: ['fingers', 'widths'],
    ask: 'Widths of the fingers, counted, such as 25 x4, 50 x2, 100',
    help: 'Tape across each finger, those in the drawer too.',
    read: written(countedWidths, FINGERS.widths),
  },
  {
    path: ['fingers', 'boxDepth'],
    ask: 'Depth of the fingers, mm',
    help: 'Square: from the tip of a finger up to the underside of the beam that carries it.',
    read: by(FINGERS.boxDepth),
  },
];

const V_FIGURES: readonly AskedFigure[] = [
  {
    path: ['v'],
    ask: 'Opening of the V that is in, mm',
    help: 'Calliper over the shoulders of the die, from edge to edge.',
    read: by(BRAKE.v),
  },
  {
    path: ['otherVs'],
    ask: 'Openings of the other dies, mm, with commas',
    help: 'Calliper, as before.',
    read: written(lengthsOf, BRAKE.otherVs),
  },
  {
    path: ['daylight'],
    ask: 'Travel of the punch, mm',
    help: 'Tape: its tip at the end of a stroke to its tip with the ram fully up.',
    read: by(BRAKE.daylight),
  },
];

/** What machines there are to choose from. */
export const KINDS = {
  fingers: {
    list: 'folders',
    like: 'boxpan-1250x2.0',
    called: 'finger folder',
    before: NOSE,
    after: [OPENING, ...FINGER_FIGURES],
  },
  straight: {
    list: 'folders',
    like: 'straight-2000x1.5',
    called: 'straight folder',
    before: NOSE,
    after: [OPENING],
  },
  brake: {
    list: 'pressBrakes',
    like: 'pressbrake-1250',
    called: 'press brake',
    before: V_FIGURES,
    after: [],
  },
} as const satisfies Readonly<
  Record<
    string,
    {
      readonly list: 'folders' | 'pressBrakes';
      readonly like: string;
      readonly called: string;
      /** Asked before the test folds, and after them. */
      readonly before: readonly AskedFigure[];
      readonly after: readonly AskedFigure[];
    }
  >
>;

export type Kind = keyof typeof KINDS;

/** The kind of a machine that a shop has. */
export const kindOf = (machine: Machine): Kind =>
  machine.kind === 'press brake'
    ? 'brake'
    : machine.clamp.kind === 'fingers'
      ? 'fingers'
      : 'straight';

/** The sheets in the rack. */
export const SHEETS = {
  ask: 'Sheets in the rack, such as 2500 x 1250, 2000 x 1000 x 2 steel',
  help: 'All that you keep; the thickness and the metal only where a size is kept in these alone.',
  read: written(sheetsOf, list('', sheet, { what: 'sheet sizes', min: 1, max: 200 })),
} as const;

const NO_SCHEMA = (): Record<string, never> => ({});

const isBarOn: Reader<boolean> = {
  json: NO_SCHEMA,
  read: (given) => {
    const read = FOLDER.leafBarFitted.read(given);
    return read.ok && read.value !== undefined
      ? { ok: true, value: read.value }
      : { ok: false, flaws: [{ path: [], allowed: 'yes, no or none' }] };
  },
};

/** Whether the bar is on the leaf; `none` where it has none that comes off. */
export const BAR: Asked<boolean | 'none'> = {
  ask: 'Is the bar on the leaf: yes, no, or none where it has none',
  help: 'The bar (or angle) screwed on under the edge of the leaf: off for narrow returns, and then it takes less.',
  read: (text) => (text.toLowerCase() === 'none' ? { ok: true, value: 'none' } : by(isBarOn)(text)),
};

/** The edge of a leaf without a bar, which is as thick either way. */
const edge: Reader<number> = {
  json: NO_SCHEMA,
  read: (given) => {
    const read = FOLDER.leafEdge.read({ barFitted: given, barRemoved: given });
    if (!read.ok)
      return { ok: false, flaws: [{ path: [], allowed: read.flaws[0]?.allowed ?? '' }] };
    return { ok: true, value: (read.value as { readonly barFitted: number }).barFitted };
  },
};

/** How thick the edge of such a leaf is. */
export const LEAF_EDGE: Asked<number> = {
  ask: 'Thickness of the upper edge of the leaf, mm',
  help: 'Calliper or square at the edge that lifts the sheet.',
  read: by(edge),
};
