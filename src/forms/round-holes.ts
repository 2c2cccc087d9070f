import { parseAngle, parseLength } from '../text/units.ts';
import { TEXT } from './accepts.ts';
import { type Field, type FieldReading, makeField, type Said } from './field.ts';
import { shown } from './given.ts';
import { readHoleSize } from './hole-shape.ts';
import { entriesOf } from './split-entries.ts';
import type { HoleUse } from '../model/hole-use.ts';

/** A round hole in a rolled wall, by where it lies round and along. */
export interface RoundHole {
  /** Round the axis from the left edge of the wall, as its drawing shows it, degrees. */
  readonly angleDeg: number;
  /** From the lower end, mm. */
  readonly upMm: number;
  readonly diameterMm: number;
  readonly use?: HoleUse;
}

const ALLOWED =
  "round holes as angle,height,size with ';' between them: 90,40,60 or 45 deg,20,M8; a size is a diameter or a screw";

/** More holes than this are a slip. */
const MOST_HOLES = 200;

/** Round holes in a rolled wall, each by its angle and its height; none unless given. */
export const roundHoles = (
  options: Said & { readonly example: string },
): Field<readonly RoundHole[]> =>
  makeField(
    {
      kind: 'text',
      list: { one: 'hole', many: 'holes' },
      allowed: ALLOWED,
      default: '',
      ...options,
    },
    TEXT,
    readRoundHoles,
  );

/** Reads `90,40,60; 45 deg,20,M8`. */
export function readRoundHoles(given: string): FieldReading<readonly RoundHole[]> {
  const entries = entriesOf(given, MOST_HOLES);
  if (entries.length > MOST_HOLES) return { ok: false, mend: `give ${MOST_HOLES} at most` };
  const holes: RoundHole[] = [];
  for (const text of entries) {
    const [angle = '', up = '', size = '', ...more] = text.split(',').map((part) => part.trim());
    const [deg, mm, hole] = [parseAngle(angle), parseLength(up), readHoleSize(size)];
    if (more.length > 0 || !deg.ok || !mm.ok)
      return { ok: false, given: shown(text), mend: 'write angle,height,size' };
    if (!(Math.abs(deg.value) <= 360) || !(Math.abs(mm.value) <= 10_000))
      return { ok: false, given: shown(text), mend: 'an angle goes to 360 degrees' };
    if (!hole.ok || hole.value.shape.kind !== 'round')
      return { ok: false, given: shown(text), mend: 'give a diameter or a screw as its size' };
    const { use, shape } = hole.value;
    holes.push({
      angleDeg: deg.value,
      upMm: mm.value,
      diameterMm: shape.diameterMm,
      ...(use !== undefined && { use }),
    });
  }
  return { ok: true, value: holes };
}
