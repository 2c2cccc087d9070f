import {
  clearanceHoleMm,
  countersinkMm,
  rivetNutHoleMm,
  screwMm,
  tappedHole,
} from '../data/hole-sizes.ts';
import type { Countersink, HoleUse } from '../model/hole-use.ts';
import { type ParsedNumber, parseAngle } from '../text/units.ts';
import { shown } from './given.ts';
import { bad, good, readExtent, type Reading, reasonsOf } from './hole-reading.ts';
import { widthOf } from './hole-extent.ts';
import { readTubeHole, type TubeHole } from './tube-hole.ts';

/**
 * Lengths in mm. A slot's length is its overall length; at turn 0 it runs along the fold. A square
 * and a hexagon, whose size is that across its flats, stand with two sides along the fold at turn
 * 0. Turns are counter-clockwise.
 */
export type HoleShape =
  | { readonly kind: 'round'; readonly diameterMm: number }
  | {
      readonly kind: 'slot';
      readonly widthMm: number;
      readonly lengthMm: number;
      readonly turnDeg: number;
    }
  | { readonly kind: 'square' | 'hex'; readonly widthMm: number; readonly turnDeg: number }
  | TubeHole;

/** A hole without its place. */
export interface SizedHole {
  readonly shape: HoleShape;
  readonly use?: HoleUse;
}

export const SIZE_ALLOWED =
  'a diameter (6.6), a thread for its clearance hole (M8), a slot (8x20 or 8x20@90), square 12, hex 19, a rivet nut (RN6) or a tube that passes through at an angle from square (T76@30)';

export const BEHIND_ALLOWED =
  'for M8 (it takes that screw), tapped, csk up or csk down (countersunk from that face), drill (marked, not cut), clear 1 (room all round a tube), grommet 2 (rubber on the edge of its hole), to NAME (the part it is bolted to)';

/** Words behind a size, each at most once and in any order. */
interface Behind {
  readonly screw?: string;
  readonly meets?: string;
  readonly tapped?: true;
  readonly countersink?: string;
  readonly drill?: true;
  readonly clear?: string;
  readonly grommet?: string;
}

/**
 * Reads `M8`, `9 for M8`, `8x20@90`, `M6 csk up`, `M5 tapped drill`, `M8 to rail`: what a hole is,
 * without its place.
 */
export function readHoleSize(given: string): Reading<SizedHole> {
  const [size, behind] = apart(given.trim());
  const stray = STRAY.exec(size)?.[1];
  if (stray !== undefined)
    return bad(
      `size: ${shown(stray)} is no word for a hole; behind a size may stand ${BEHIND_ALLOWED}`,
    );
  const read = readBehind(behind);
  if (!read.ok) return read;
  if (/^t\s*[\d.]/i.test(size)) return readTubeHole(size, read.value);
  if (read.value.clear !== undefined || read.value.grommet !== undefined)
    return bad('size: clear and grommet stand behind a tube, such as T76@30 clear 1');
  const sized = read.value.tapped === true ? readTapped(size) : readPlain(size);
  if (!sized.ok) return sized;
  return withUse(sized.value, read.value);
}

/** A size followed by an unknown word; words of two letters are taken for units. */
const STRAY = /^(?:m\s*|rn\s*|t\s*)?[\d./]+(?:[x×][\d./]+)?\s+(\p{L}{3,}.*)$/iu;

const WORD = /(?:^|\s)(for|tapped|csk|drill|clear|grommet|to)(?=\s|$)/i;

/** The size, and the words behind it. */
const apart = (text: string): readonly [size: string, behind: string] => {
  const found = WORD.exec(text);
  return found === null
    ? [text, '']
    : [text.slice(0, found.index).trim(), text.slice(found.index).trim()];
};

const SCREW = /^m\s*\d{1,2}(?:\.5)?$/i;
const MEETS = /^[\p{L}\p{N}][\p{L}\p{N} _.-]{0,23}$/u;

function readBehind(text: string): Reading<Behind> {
  let found: Behind = {};
  for (let rest = text; rest !== '';) {
    const [word, value, after] = firstWord(rest);
    rest = after;
    const next = oneBehind(word, value);
    if (!next.ok) return next;
    if (Object.keys(next.value).some((key) => Object.hasOwn(found, key)))
      return bad(`size: write ${word} once`);
    found = { ...found, ...next.value };
  }
  return good(found);
}

/** The first word, what belongs to it, and the rest. */
const firstWord = (text: string): readonly [word: string, value: string, rest: string] => {
  const word = /^\S+/.exec(text)?.[0] ?? '';
  const behind = text.slice(word.length);
  const end = WORD.exec(behind)?.index ?? behind.length;
  return [word.toLowerCase(), behind.slice(0, end).trim(), behind.slice(end).trim()];
};

function oneBehind(word: string, value: string): Reading<Behind> {
  switch (word) {
    case 'for':
      return SCREW.test(value)
        ? good({ screw: `M${value.slice(1).trim()}` })
        : bad('size: write the screw behind for, such as 9 for M8');
    case 'to':
      return MEETS.test(value)
        ? good({ meets: value })
        : bad(
            'size: write behind to what it is bolted to, up to 24 letters, figures and spaces, such as M8 to rail',
          );
    case 'csk':
      return good({ countersink: value });
    case 'clear':
    case 'grommet':
      return good({ [word]: value });
    default:
      return value === ''
        ? good(word === 'drill' ? { drill: true } : { tapped: true })
        : bad(`size: write nothing behind ${word} but for, csk, to or drill`);
  }
}

/** A size as it is cut, before the words behind it are read. */
function readPlain(text: string): Reading<SizedHole> {
  if (/^rn/i.test(text)) return ofNut(text);
  if (/^m\s*\d/i.test(text)) return ofScrew(text);
  const cornered = /^(square|hex)\s*(.*)$/i.exec(text);
  if (cornered !== null)
    return readCornered(cornered[1]?.toLowerCase() as 'square' | 'hex', cornered[2] ?? '');
  if (/[x×]/i.test(text)) return readSlot(text);
  if (!/^[\d.(+-]/.test(text)) return bad(`size: write ${SIZE_ALLOWED}`);
  if (text.includes('@')) return bad('size: only a slot, a square or a hexagon can be turned');
  const diameter = readExtent('size', text);
  return diameter.ok ? good({ shape: { kind: 'round', diameterMm: diameter.value } }) : diameter;
}

const looked = (found: ParsedNumber): Reading<number> =>
  found.ok ? found : bad(`size: ${found.reason}`);

const ofNut = (text: string): Reading<SizedHole> => {
  const hole = looked(rivetNutHoleMm(text));
  return hole.ok
    ? good({
        shape: { kind: 'round', diameterMm: hole.value },
        use: { screw: `M${text.replace(/\D/g, '')}`, thread: { kind: 'rivet nut' } },
      })
    : hole;
};

const ofScrew = (text: string): Reading<SizedHole> => {
  const hole = looked(clearanceHoleMm(text));
  return hole.ok
    ? good({
        shape: { kind: 'round', diameterMm: hole.value },
        use: { screw: `M${text.slice(1).trim()}` },
      })
    : hole;
};

const readTapped = (text: string): Reading<SizedHole> => {
  if (!/^m\s*\d/i.test(text))
    return bad('size: write the thread before tapped, such as M8 tapped or M8x1 tapped');
  const found = tappedHole(text);
  if (!found.ok) return bad(`size: ${found.reason}`);
  const { screw, pitchMm, drillMm } = found.value;
  return good({
    shape: { kind: 'round', diameterMm: drillMm },
    use: { screw, thread: { kind: 'tapped', pitchMm } },
  });
};

function withUse(
  { shape, use }: SizedHole,
  { screw, meets, countersink: sunk, drill }: Behind,
): Reading<SizedHole> {
  if (screw !== undefined && use?.screw !== undefined)
    return bad(`size: it is for ${use.screw} already; leave out for ${screw}`);
  const fits = screw ?? use?.screw;
  if (screw !== undefined && screwMm(screw) > widthOf(shape))
    return bad(`size: ${screw} does not go through ${widthOf(shape)} mm`);
  if (meets !== undefined && fits === undefined)
    return bad(
      'size: say which screw it takes before what it is bolted to, such as 9 for M8 to rail',
    );
  if (drill === true && shape.kind !== 'round')
    return bad('size: only a round hole can be drilled');
  const countersink = sunk === undefined ? undefined : readCountersink(sunk, shape, fits, use);
  if (countersink?.ok === false) return countersink;
  const whole: HoleUse = {
    ...use,
    ...(fits !== undefined && { screw: fits }),
    ...(meets !== undefined && { meets }),
    ...(countersink !== undefined && { countersink: countersink.value }),
    ...(drill === true && { isDrilled: true }),
  };
  return good(Object.keys(whole).length === 0 ? { shape } : { shape, use: whole });
}

/** Reads a countersink such as `up` or `13 up`. */
function readCountersink(
  text: string,
  shape: HoleShape,
  screw: string | undefined,
  use: HoleUse | undefined,
): Reading<Countersink> {
  const [, size = '', face] = /^(.*?)\s*(up|down)$/i.exec(text) ?? [];
  if (face === undefined)
    return bad(
      'size: write behind csk from which face it is cut, csk up (the face that the drawing shows) or csk down',
    );
  if (shape.kind !== 'round' || use?.thread !== undefined)
    return bad('size: only a plain round hole can be countersunk');
  if (size === '' && screw === undefined)
    return bad('size: write the diameter of the countersink, such as 6.6 csk 13 up');
  const diameter =
    size === '' ? looked(countersinkMm(screw ?? '')) : readExtent('countersink', size);
  if (!diameter.ok) return diameter;
  if (diameter.value <= shape.diameterMm)
    return bad(`size: a countersink is wider than its hole of ${shape.diameterMm}`);
  return good({ diameterMm: diameter.value, face: face.toLowerCase() === 'up' ? 'up' : 'down' });
}

/** A size with a turn behind it: `8x20@90`. */
const turned = (text: string): Reading<{ readonly body: string; readonly turnDeg: number }> => {
  const [body = '', turn = '0', ...rest] = text.split('@');
  if (rest.length > 0) return bad('size: write one turn, such as 8x20@90');
  const turnDeg = parseAngle(turn);
  return turnDeg.ok ? good({ body, turnDeg: turnDeg.value }) : bad(`turn: ${turnDeg.reason}`);
};

function readCornered(kind: 'square' | 'hex', text: string): Reading<SizedHole> {
  const turn = turned(text);
  if (!turn.ok) return turn;
  const widthMm = readExtent(kind === 'hex' ? 'width across flats' : 'width', turn.value.body);
  return widthMm.ok
    ? good({ shape: { kind, widthMm: widthMm.value, turnDeg: turn.value.turnDeg } })
    : widthMm;
}

function readSlot(text: string): Reading<SizedHole> {
  const turn = turned(text);
  const [width = '', long = '', ...more] = text.split('@')[0]?.split(/[x×]/i) ?? [];
  if (more.length > 0) return bad('size: write a slot as width x length, such as 8x20 or 8x20@90');
  const widthMm = readExtent('slot width', width);
  const lengthMm = readExtent('slot length', long);
  if (!widthMm.ok || !lengthMm.ok || !turn.ok) return bad(...reasonsOf(widthMm, lengthMm, turn));
  if (lengthMm.value <= widthMm.value) {
    return bad(
      `size: a slot's overall length comes second and must be more than its width; write ${long.trim()}x${width.trim()}, or a diameter`,
    );
  }
  return good({
    shape: {
      kind: 'slot',
      widthMm: widthMm.value,
      lengthMm: lengthMm.value,
      turnDeg: turn.value.turnDeg,
    },
  });
}
