import { describeInputs, readInput } from '../../forms/read.ts';
import type { MadePart } from '../made-part.ts';
import { type ScreenSize, sizedFlat } from '../show/part-pictures.ts';
import type { Sketched } from './lettered-sketch.ts';

/** How much a length or an angle is changed, to see which sizes of the blank follow, mm or degrees. */
const STEP = 0.5;
/** A size that moves by less than this share of the step does not follow. */
const MOVED_SHARE = 0.1;

/**
 * Which input drives each size of a drawn blank, by the name of the size: each length and angle is
 * changed a little and the blank made again. Of several inputs that a size follows it is the one that
 * moves the fewest others: the overall length of an angle follows both legs, and is told by the leg
 * that nothing else follows. What places a hole is driven by the input that gave the hole.
 */
export const sizeDrivers = (
  { template, inputs, remade }: Omit<Sketched, 'parts'>,
  one: MadePart,
  size: ScreenSize,
): Readonly<Record<string, string>> => {
  const spots = sizedFlat(one, size)?.spots ?? [];
  const before = new Map(spots.map(({ of, mm }) => [of, mm]));
  const moved = describeInputs(template).flatMap(({ name, kind, common }) => {
    if (common || (kind !== 'length' && kind !== 'angle')) return [];
    const read = readInput(template, name, inputs[name]);
    if (read?.ok !== true || typeof read.value !== 'number') return [];
    const again = remade({ ...inputs, [name]: read.value + STEP }).find(
      ({ result: { piece, hand } }) => piece === one.result.piece && hand === one.result.hand,
    );
    const after = again === undefined ? undefined : spotsOf(again, size);
    if (after === undefined || after.size !== before.size) return [];
    const names = [...before].flatMap(([of, mm]) =>
      Math.abs((after.get(of) ?? mm) - mm) > MOVED_SHARE * STEP ? [of] : [],
    );
    return names.length === 0 ? [] : [{ name, names }];
  });
  const few = moved.toSorted((a, b) => a.names.length - b.names.length);
  return Object.fromEntries(
    spots.flatMap(({ of, hole }) => {
      const ofHole = /^([A-Za-z]\w*) \d/.exec(hole ?? '')?.[1];
      const driver = ofHole ?? few.find(({ names }) => names.includes(of))?.name;
      return driver === undefined ? [] : [[of, driver]];
    }),
  );
};

const spotsOf = (one: MadePart, size: ScreenSize): ReadonlyMap<string, number> =>
  new Map(sizedFlat(one, size)?.spots.map(({ of, mm }) => [of, mm]) ?? []);
