import { parseLength } from '../text/units.ts';
import { TEXT } from './accepts.ts';
import { type Field, type FieldReading, makeOptionalField, type Said, saidOf } from './field.ts';
import { shown } from './given.ts';
import { entriesOf } from './split-entries.ts';

/** A step in a floor, straight across the plan at a place of one of its axes, mm. */
export interface GivenStep {
  readonly axis: 'x' | 'y';
  readonly atMm: number;
  /** How much higher the floor is beyond it; less than 0 where it is lower. */
  readonly upMm: number;
}

const MOST_STEPS = 6;
const FARTHEST_MM = 10_000;
const WAY =
  "x or y, its place there, up or down and how much, as x 300 up 40; with ';' between them";

/** A field for steps in a floor, such as `x 300 up 40; x 420 down 40`; it may be left out. */
export const optionalFloorSteps = (
  options: Said & { readonly example: string; readonly otherwise: string },
): Field<readonly GivenStep[] | undefined> =>
  makeOptionalField(
    {
      kind: 'text',
      list: { one: 'step', many: 'steps' },
      ...saidOf(options),
      allowed: WAY,
      example: options.example,
      otherwise: options.otherwise,
    },
    TEXT,
    readFloorSteps,
  );

/** Reads `x 300 up 40; x 420 down 40`, all along one axis; in the order of their places. */
export function readFloorSteps(given: string): FieldReading<readonly GivenStep[]> {
  const texts = entriesOf(given, MOST_STEPS).map((text) => text.trim());
  if (texts.length === 0) return { ok: false, mend: 'give one step at least' };
  if (texts.length > MOST_STEPS)
    return { ok: false, given: `${texts.length} steps`, mend: `give at most ${MOST_STEPS}` };
  const steps: GivenStep[] = [];
  for (const text of texts) {
    const read = readStep(text, steps);
    if (!read.ok) return { given: shown(text), ...read };
    steps.push(read.value);
  }
  return { ok: true, value: steps.toSorted((a, b) => a.atMm - b.atMm) };
}

const readStep = (text: string, before: readonly GivenStep[]): FieldReading<GivenStep> => {
  const [, letter, place = '', way, by = ''] =
    /^([xy])\s+(\S.*?)\s+(up|down)\s+(\S.*)$/i.exec(text) ?? [];
  if (letter === undefined || way === undefined) return { ok: false, mend: `write ${WAY}` };
  const [at, height] = [parseLength(place), parseLength(by)];
  if (!at.ok) return { ok: false, mend: at.reason };
  if (!height.ok) return { ok: false, mend: height.reason };
  if (!(Math.abs(at.value) <= FARTHEST_MM && height.value > 0 && height.value <= FARTHEST_MM))
    return {
      ok: false,
      mend: `give a place within ${FARTHEST_MM} mm, and a height over 0 and up to that`,
    };
  const axis = letter.toLowerCase() === 'x' ? 'x' : 'y';
  if (before.some((step) => step.axis !== axis))
    return { ok: false, mend: 'give all steps along one axis, x or y' };
  if (before.some((step) => step.atMm === at.value))
    return { ok: false, mend: 'there is a step at that place already: write one for both' };
  const isUp = way.toLowerCase() === 'up';
  return { ok: true, value: { axis, atMm: at.value, upMm: isUp ? height.value : -height.value } };
};
