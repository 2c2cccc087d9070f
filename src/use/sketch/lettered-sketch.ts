import type { FoundMeasure } from '../../contract/proof.ts';
import { describeInputs, readInput } from '../../forms/read.ts';
import type { Template } from '../../forms/template.ts';
import type { Picture } from '../../model/picture.ts';
import {
  type LengthPlace,
  letteredView,
  type LetteredLength,
  type Spot,
} from '../../paper/draw/lettered-view.ts';
import { foldedMesh } from '../../solid/folded-mesh.ts';
import type { MadePart } from '../made-part.ts';
import { cornerLengths } from './corner-lengths.ts';
import { inputOf, lengthPlaces, sumOf } from './lettered-lengths.ts';
import { chordFor, type ScreenSize } from '../show/part-pictures.ts';

/** A picture of a folded part on which measures have letters. */
export interface LetteredSketch {
  /** The piece of a set that it shows; absent for a part of one blank. */
  readonly piece?: string;
  readonly picture: Picture;
  /** Where the letter of each input stands. */
  readonly spots: readonly Spot[];
  /** The letters that are in it, by the name of the input. */
  readonly letters: Readonly<Record<string, string>>;
}

/** More pictures than these of one set are no help. */
const MOST_SKETCHES = 3;

/** A family's part as it was made, and how to make it with one input changed. */
export interface Sketched {
  readonly template: Template;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly parts: readonly MadePart[];
  readonly remade: (inputs: Readonly<Record<string, unknown>>) => readonly MadePart[];
}

/**
 * Pictures of a folded part with a letter at each measure that it shows: the first piece, and of
 * others those that show measures which none before them does. The letters are those of
 * `describeInputs`, the same in all pictures of a family.
 */
export const letteredSketches = (sketched: Sketched, size: ScreenSize): LetteredSketch[] => {
  const described = describeInputs(sketched.template);
  const letters = new Map(
    described.flatMap(({ name, letter }) =>
      letter === undefined ? [] : [[name, letter] as const],
    ),
  );
  const { parts } = sketched;
  const pieces = parts.filter(({ result: { hand } }) => hand === parts[0]?.result.hand);
  const stated = pieces.map((one) => lettered(one, letters, inputOf));
  const missing = described.flatMap(({ name, required, kind }) =>
    required && kind === 'length' && !stated.flat().some((l) => l.of === name) ? [name] : [],
  );
  const between = betweenCorners(sketched, pieces, missing);
  const known = new Set([...stated, ...between].flat().map(({ of }) => of));
  const sums = pieces.map((one) =>
    lettered(one, letters, sumOf).filter(({ of }) => !known.has(of)),
  );
  const told = new Set<string>();
  const found: LetteredSketch[] = [];
  for (const [i, one] of pieces.entries()) {
    const all = [...(stated[i] ?? []), ...(between[i] ?? []), ...(sums[i] ?? [])].map((l) => ({
      ...l,
      letter: letters.get(l.of) ?? '',
    }));
    const lengths = all.filter(({ of, letter }) => letter !== '' && !told.has(of));
    if (found.length >= MOST_SKETCHES || (lengths.length === 0 && found.length > 0)) continue;
    const sketch = sketchOf(one, lengths, size);
    if (sketch === undefined || (sketch.spots.length === 0 && found.length > 0)) continue;
    for (const { of } of sketch.spots) told.add(of);
    found.push(sketch);
  }
  return found.some(({ spots }) => spots.length > 0)
    ? found.filter(({ spots }) => spots.length > 0)
    : found;
};

/** A length is made longer by so much of itself, to see which corners follow. */
const LONGER = 0.01;

/** The measures that the family does not state of its pieces, between corners that follow them. */
const betweenCorners = (
  { template, inputs, remade }: Sketched,
  pieces: readonly MadePart[],
  missing: readonly string[],
): Pick<LetteredLength, 'of' | 'places'>[][] => {
  const found = pieces.map((): Pick<LetteredLength, 'of' | 'places'>[] => []);
  for (const of of missing) {
    const read = readInput(template, of, inputs[of]);
    if (read?.ok !== true || typeof read.value !== 'number') continue;
    const mm = read.value;
    const changed = remade({ ...inputs, [of]: mm * (1 + LONGER) });
    for (const [i, one] of pieces.entries()) {
      const same = changed.find(
        ({ result: { piece, hand } }) => piece === one.result.piece && hand === one.result.hand,
      );
      const places = same === undefined ? [] : cornerLengths(one, same, mm, mm * LONGER);
      if (places.length > 0) found[i]?.push({ of, places });
    }
  }
  return found;
};

const sketchOf = (
  { part, flat, result, stopped }: MadePart,
  lengths: readonly LetteredLength[],
  size: ScreenSize,
): LetteredSketch | undefined => {
  if (stopped || part === undefined || flat === undefined || result.folded === null)
    return undefined;
  const mesh = foldedMesh(part, flat, chordFor(result.folded.sizeMm));
  if (mesh === undefined) return undefined;
  const { picture, spots } = letteredView(mesh, lengths, size);
  return {
    ...(result.piece !== null && { piece: result.piece }),
    picture,
    spots,
    letters: Object.fromEntries(
      lengths.filter(({ of }) => spots.some((s) => s.of === of)).map((l) => [l.of, l.letter]),
    ),
  };
};

/** The measures of a piece that have a letter, each with all the places it is measured at. */
const lettered = (
  { part, flat, result }: MadePart,
  letters: ReadonlyMap<string, string>,
  nameOf: (measure: FoundMeasure) => string | undefined,
): Pick<LetteredLength, 'of' | 'places'>[] => {
  if (part === undefined || flat === undefined) return [];
  const placesOf = lengthPlaces(part, flat);
  const found = new Map<string, LengthPlace[]>();
  for (const measure of result.proof?.measures ?? []) {
    const of = nameOf(measure);
    if (of === undefined || !letters.has(of)) continue;
    found.set(of, [...(found.get(of) ?? []), ...placesOf(measure)]);
  }
  return [...letters.keys()].flatMap((of) => {
    const places = found.get(of) ?? [];
    return places.length === 0 ? [] : [{ of, places }];
  });
};
