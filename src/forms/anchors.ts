import type { Part } from '../model/part.ts';
import type { Wish } from '../model/wish.ts';
import type { Anchor, ToldAnchor } from './anchor.ts';
import { wholeBuilt } from './built.ts';
import { describeInputs, readInputs } from './read.ts';
import type { Template } from './template.ts';

/** The things that each input measures, by its name; inputs that measure nothing are left out. */
export type Anchors = Readonly<Record<string, readonly Anchor[]>>;

/**
 * What the inputs of a family measure on the part that they make: what the family itself states
 * about the part, the holes and cut-outs that an input gave, and otherwise what the input states.
 * Inputs that make no part measure nothing.
 */
export const anchorsOf = (template: Template, raw: Readonly<Record<string, unknown>>): Anchors => {
  const described = describeInputs(template);
  const { values, blanks } = builtOf(template, raw);
  if (blanks.length === 0) return {};
  const stated = statedIn(blanks, new Set(described.map(({ name }) => name)));
  const told = new Map(described.map(({ name, anchor }) => [name, anchor]));
  const found = (name: string, asked: readonly string[] = []): readonly Anchor[] => {
    const own = stated.get(name);
    const anchor = told.get(name);
    if (own !== undefined || anchor === undefined || asked.includes(name)) return own ?? [];
    if (anchor.kind === 'as') return found(anchor.input, [...asked, name]);
    const thing: ToldAnchor =
      anchor.kind === 'panel of' ? { kind: 'panel', panel: String(values[anchor.input]) } : anchor;
    // An anchor that belongs to no blank is told once.
    return thing.kind === 'beside' || thing.kind === 'sheet'
      ? [thing]
      : blanks.flatMap((blank) => thingsIn(blank, thing));
  };
  return Object.fromEntries(
    described.flatMap(({ name }) => {
      const anchors = found(name);
      return anchors.length === 0 ? [] : [[name, anchors]];
    }),
  );
};

/**
 * Anchors that the family states for its parts, and those of holes and cut-outs that inputs gave.
 */
const statedIn = (
  blanks: readonly Blank[],
  names: ReadonlySet<string>,
): ReadonlyMap<string, readonly Anchor[]> => {
  const found = new Map<string, Anchor[]>();
  for (const blank of blanks) {
    const { part } = blank;
    const add = (name: string, anchor: Anchor): void => {
      if (names.has(name)) found.set(name, [...(found.get(name) ?? []), placed(blank, anchor)]);
    };
    for (const wish of part.wishes ?? [])
      for (const name of inputsOf(wish)) add(name, anchorOf(wish));
    for (const { id, cutouts } of part.panels)
      for (const cutout of cutouts)
        for (const name of cutout.inputs ?? [])
          add(name, { kind: 'cut-out', panel: id, from: cutout.from });
  }
  return found;
};

interface Blank {
  readonly piece?: string;
  readonly part: Part;
}

const placed = ({ piece }: Blank, anchor: Anchor): Anchor =>
  piece === undefined ? anchor : { ...anchor, piece };

/** The things on a blank that an anchor means; none where it has no such thing. */
const thingsIn = (blank: Blank, thing: ToldAnchor): Anchor[] => {
  const { part } = blank;
  switch (thing.kind) {
    case 'as':
    case 'panel of':
      return [];
    case 'panel':
      return part.panels
        .filter(({ id }) => id === thing.panel || id.replace(/ \d+$/, '') === thing.panel)
        .map(({ id }) => placed(blank, { kind: 'panel', panel: id }));
    case 'fold':
      return part.folds.some(({ id }) => id === thing.fold) ? [placed(blank, thing)] : [];
    case 'cut-out':
      return part.panels.flatMap(({ id, cutouts }) =>
        cutouts.some(({ from }) => from === thing.from)
          ? [placed(blank, { ...thing, panel: id })]
          : [],
      );
    default:
      return [placed(blank, thing)];
  }
};

/**
 * The parts that the inputs make, or none: errors of a template's `build` are reported when the
 * part is made, not here.
 */
const builtOf = (
  template: Template,
  raw: Readonly<Record<string, unknown>>,
): { readonly values: Readonly<Record<string, unknown>>; readonly blanks: readonly Blank[] } => {
  const read = readInputs(template, raw);
  if (!read.ok) return { values: {}, blanks: [] };
  const { values } = read;
  try {
    const { part, pieces = [] } = wholeBuilt(template.build(values), values);
    const blanks = pieces.map((each): Blank => ({ piece: each.id, part: each.part }));
    return { values, blanks: part === undefined ? blanks : [{ part }, ...blanks] };
  } catch {
    return { values, blanks: [] };
  }
};

/**
 * The inputs that a wish names. It is called by one input or by a sum of inputs, with words behind
 * it that tell it from others: `width + 2 thickness`, `bendAngle at A`, `length, left to right`.
 */
const inputsOf = ({ input, kind }: Wish): readonly string[] =>
  kind === 'length' && / from /.test(input)
    ? []
    : [...input.replace(/(?:,| at | over | less ).*$/, '').matchAll(/[A-Za-z]\w*/g)].map(
        ([name]) => name,
      );

const anchorOf = (wish: Wish): Anchor => {
  if (wish.kind === 'length') return { kind: 'length', between: wish.between };
  if (wish.kind === 'rolled') return { kind: 'panel', panel: wish.panel };
  return wish.kind === 'angle'
    ? { kind: 'angle', panels: wish.panels }
    : { kind: 'diameter', panel: wish.panel, from: wish.from };
};
