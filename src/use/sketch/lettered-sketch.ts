import type { FoundMeasure } from '../../contract/proof.ts';
import { describeInputs, readInput } from '../../forms/read.ts';
import type { Template } from '../../forms/template.ts';
import type { Picture } from '../../model/picture.ts';
import {
  type AnglePlace,
  type LengthPlace,
  letteredView,
  type LetteredMeasure,
  type Spot,
} from '../../paper/draw/lettered-view.ts';
import { foldedMesh } from '../../solid/folded-mesh.ts';
import type { MadePart } from '../made-part.ts';
import { anglePlaces } from './angle-places.ts';
import { cornerLengths } from './corner-lengths.ts';
import { inputOf, lengthPlaces, sumOf } from './lettered-lengths.ts';
import { tubeHoles } from './tube-holes.ts';
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
  const between = following(sketched, pieces, missing, lengthOf);
  const turned = following(
    sketched,
    pieces,
    described.flatMap(({ name, kind, letter }) =>
      kind === 'angle' && letter !== undefined ? [name] : [],
    ),
    angleOf,
  );
  const known = new Set([...stated, ...between].flat().map(({ of }) => of));
  const sums = pieces.map((one) =>
    lettered(one, letters, sumOf).filter(({ of }) => !known.has(of)),
  );
  const told = new Set<string>();
  const found: LetteredSketch[] = [];
  for (const [i, one] of pieces.entries()) {
    const all = [stated, between, sums, turned]
      .flatMap((of) => of[i] ?? [])
      .map((l) => ({
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

/** Where a piece shows a measure: as the piece is made, and as it is made with a larger one. */
interface Following {
  /** By how much the measure is made larger, to see what follows. */
  readonly by: (value: number) => number;
  readonly placesOf: (
    one: MadePart,
    changed: MadePart,
    value: number,
    by: number,
  ) => readonly (LengthPlace | AnglePlace)[];
}

/** Between corners that follow a length, or across the hole of a tube that is as thick. */
const lengthOf: Following = {
  by: (mm) => mm / 100,
  placesOf: (one, changed, mm, by) => {
    const holes = tubeHoles(one, changed, mm, by);
    return holes.length > 0 ? holes : cornerLengths(one, changed, mm, by);
  },
};
/** Between panels that follow an angle. */
const angleOf: Following = { by: () => 0.5, placesOf: anglePlaces };

/** Measures that the family does not state of its pieces, where these follow them. */
const following = (
  { template, inputs, remade }: Sketched,
  pieces: readonly MadePart[],
  names: readonly string[],
  { by, placesOf }: Following,
): Pick<LetteredMeasure, 'of' | 'places'>[][] => {
  const found = pieces.map((): Pick<LetteredMeasure, 'of' | 'places'>[] => []);
  for (const of of names) {
    const read = readInput(template, of, inputs[of]);
    if (read?.ok !== true || typeof read.value !== 'number') continue;
    const { value } = read;
    const changed = remade({ ...inputs, [of]: value + by(value) });
    for (const [i, one] of pieces.entries()) {
      const same = changed.find(
        ({ result: { piece, hand } }) => piece === one.result.piece && hand === one.result.hand,
      );
      const places = same === undefined ? [] : placesOf(one, same, value, by(value));
      if (places.length > 0) found[i]?.push({ of, places });
    }
  }
  return found;
};

const sketchOf = (
  { part, flat, result, stopped }: MadePart,
  lengths: readonly LetteredMeasure[],
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
): Pick<LetteredMeasure, 'of' | 'places'>[] => {
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
