import { BoxGrid } from '../geometry/box-grid.ts';
import { circle } from '../geometry/shapes.ts';
import { type Extents, loopExtents } from '../geometry/extents.ts';
import type { Loop } from '../geometry/loop.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import type { NamedRule } from '../rules/rule.ts';
import { type Finding, stop, warn } from '../model/finding.ts';
import type { FlatCutout, FlatPattern } from '../model/flat.ts';
import { holeCalled } from '../model/hole-names.ts';
import type { HoleUse } from '../model/hole-use.ts';
import type { PlaceFigure } from '../model/part.ts';
import type { Material } from '../model/material.ts';
import {
  type Cutter,
  cutterFor,
  isAssumedIn,
  kerfOf,
  type LimitRows,
  limitOf,
  type Shop,
} from '../model/shop.ts';

/** What is checked, and against what. */
export interface CheckedPart {
  readonly flat: FlatPattern;
  readonly material: Material;
  readonly shop: Shop;
  /** Whether the mirror image is made as well, or instead. */
  readonly isMirrored: boolean;
}

/** What a check looks at. */
export interface Checked extends CheckedPart {
  /** The holes of the flat pattern as curves, in its order. */
  readonly holes: readonly Hole[];
  /** Absent where no cutter of the shop takes the sheet. */
  readonly cutting: Cutting | undefined;
}

/** The cutter that cuts the blank, and what it asks of this sheet, mm. */
export interface Cutting {
  readonly cutter: Cutter;
  readonly kerfMm: number;
  readonly limitMm: (rows: LimitRows) => number;
}

/** A hole as a curve. */
export interface Hole {
  readonly from: string;
  readonly name: string | undefined;
  readonly panel: string;
  readonly curve: Loop;
  readonly box: Extents;
  /** The middle of its box. */
  readonly centre: Vec2;
  readonly diameterMm: number | undefined;
  readonly use: HoleUse | undefined;
  /** The inputs that it came from. `isNamed` says that its own name tells the first of them. */
  readonly inputs: readonly string[];
  readonly isNamed: boolean;
  /** The figures that place it. */
  readonly figures: readonly PlaceFigure[];
  /** The fold whose row of slots it belongs to. */
  readonly fold: string | undefined;
}

/**
 * One thing that can be wrong with a part, together with all that there is to know about its rule.
 * A check reads; it neither changes anything nor throws.
 */
export interface Check extends NamedRule {
  readonly run: (checked: Checked) => readonly Finding[];
}

export const toChecked = (part: CheckedPart): Checked => ({
  ...part,
  holes: part.flat.cutouts.map(toHole),
  cutting: cuttingOf(part),
});

function cuttingOf({ flat: { thicknessMm }, material, shop }: CheckedPart): Cutting | undefined {
  const cutter = cutterFor(shop, thicknessMm);
  if (cutter === undefined) return undefined;
  const kerfMm = kerfOf(cutter, material.family, thicknessMm);
  return { cutter, kerfMm, limitMm: (rows) => limitOf(rows, thicknessMm, kerfMm) };
}

function toHole(cutout: FlatCutout): Hole {
  const { from, name, panel, inputs = [] } = cutout;
  const curve =
    cutout.kind === 'round' ? circle(cutout.centre, cutout.diameterMm / 2) : cutout.loop;
  const box = loopExtents(curve) ?? { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  const centre: Vec2 = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
  return {
    from,
    name,
    panel,
    curve,
    box,
    centre,
    diameterMm: cutout.kind === 'round' ? cutout.diameterMm : undefined,
    fold: cutout.kind === 'loop' ? cutout.fold : undefined,
    use: cutout.use,
    inputs,
    isNamed: inputs.length === 0 || from.split(' ')[0] === inputs[0],
    figures: cutout.figures ?? [],
  };
}

/** For each hole by its number: those behind it in the list that may come within a distance, mm. */
export const laterNear = (
  holes: readonly Hole[],
): ((hole: number, withinMm: number) => readonly Hole[]) => {
  const grid = new BoxGrid(holes.map(({ box }) => box));
  return (hole, withinMm) =>
    grid
      .near((holes[hole] as Hole).box, withinMm)
      .flatMap((other) => (other > hole ? (holes[other] ?? []) : []));
};

/** How findings name a hole: `Hole h2 (holesA 2) in leg A`, `Hole h1 (bolt 1, boltCircle) in flange`. */
export const nameOf = (hole: Hole): string => `Hole ${labelOf(hole)} in ${hole.panel}`;

/** The inputs, panel and place that a finding about a hole names. */
export const onHole = ({ inputs, panel, centre }: Hole) => ({ inputs, panel, at: centre }) as const;

/** The same for a finding about two holes; `at` is a place that concerns both. */
export const onHoles = (a: Hole, b: Hole, at: Vec2) =>
  ({
    inputs: [...new Set([...a.inputs, ...b.inputs])],
    ...(a.panel === b.panel && { panel: a.panel }),
    at,
  }) as const;

/** The inputs of several holes that are alike, each once. */
export const inputsOf = (alike: readonly Hole[]): string[] => [
  ...new Set(alike.flatMap(({ inputs }) => inputs)),
];

/** The hole's name and what it came from, with the inputs of that unless it already tells them. */
export const labelOf = ({ name, from, inputs, isNamed }: Hole): string => {
  if (isNamed) return holeCalled({ name, from });
  return name === undefined
    ? `${from} (${inputs.join(', ')})`
    : holeCalled({ name, from: [from, ...inputs].join(', ') });
};

/**
 * The entry that a hole was asked for by, which holes of one pattern share: `holesA 2` for `holesA
 * 2.1`.
 */
export const entryOf = ({ from, panel }: Hole): string =>
  `${from.replace(/(\d)\.\d+$/, '$1')} in ${panel}`;

/** How findings name several holes that are alike: `Holes h1 (holesA 1) and 3 more in leg A`. */
export const namesOf = ([first, ...more]: readonly [Hole, ...Hole[]]): string =>
  more.length === 0
    ? nameOf(first)
    : `Holes ${labelOf(first)} and ${more.length} more in ${first.panel}`;

/**
 * A finding about something that no cutter of the shop can do. It stops the part; where the shop's
 * cutters are only assumed it warns, because the user's own may well do it.
 */
export const impossible = (shop: Shop, rule: NamedRule, message: string): Finding =>
  (isAssumedIn(shop, 'cutters') ? warn : stop)(rule, message);

/** How findings name a cutter. */
export const cutterName = ({ name, process }: Cutter): string =>
  name.toLowerCase().includes(process) ? `cutter '${name}'` : `cutter '${name}' (${process})`;
