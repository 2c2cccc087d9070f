import { isInside } from '../geometry/inside.ts';
import type { Loop } from '../geometry/loop.ts';
import { moveLoop } from '../geometry/motion2.ts';
import { pieceOf } from '../geometry/piece.ts';
import { middle, type Vec2 } from '../geometry/vec2.ts';
import type { FlatCutout, FlatPattern } from '../model/flat.ts';
import type { Part } from '../model/part.ts';
import type { Asked, AskedAngle, AskedMeasure, CutVertex, Place } from '../contract/asked.ts';
import { gapsOf } from './asked-gaps.ts';
import { type AskedHole, askedHole, type LookedFor } from './asked-holes.ts';
import { centroidOf } from './centroid.ts';
import { circleContour } from './contours.ts';
import { idealPoses } from './ideal.ts';
import { wishedAngles, wishedMeasures } from './asked-wishes.ts';
import { distanceFromLoop } from './distances.ts';
import { linesOf } from './panel-lines.ts';
import { ofPanel } from './asked-panel.ts';
import { acrossFolds, cornerToCorner } from './asked-across.ts';

/**
 * What a part is asked to measure, by its mould lines alone. The flat pattern only says where on
 * the blank each thing is to be searched for: a pattern that puts it in the wrong place gives a
 * wrong measure, not a wrong question. `cut` is what is cut of the pattern, including deliberate
 * changes: nicks in the outline, a hole that is pierced or marked to be drilled.
 */
export const askedOf = (
  part: Part,
  flat: FlatPattern,
  kerfMm: number,
  cut: WhatIsCut = { outline: flat.outline, holes: flat.cutouts },
): Asked => {
  const known = cutHolesOf(flat, cut);
  const holes = holesOf(part, known);
  const poses = idealPoses(part);
  return {
    thicknessMm: part.thicknessMm,
    measure: part.measure,
    kerfMm,
    panels: flat.panels.map((p) => {
      const [x, y] = innermost(moveLoop(p.placement, p.region), flat.outline);
      return { name: p.id, at: [step(x), step(y)] };
    }),
    cut: {
      outline: cutVertices(cut.outline),
      holes: cut.holes.filter((h) => h !== undefined).map(holeVertices),
    },
    bends: flat.bends,
    measures: tidied(wishedMeasures(part, flat, known), [
      ...part.panels.flatMap((panel) =>
        ofPanel(part, flat, panel, linesOf(part, flat, panel), holes),
      ),
      ...acrossFolds(part, holes, poses),
      ...cornerToCorner(part, flat, poses),
      ...gapsOf(part, flat),
      ...slotWidths(part, flat, known),
      ...asMade(flat, known),
    ]),
    angles: [
      ...part.folds.map((f): AskedAngle => ({
        name: `angle at ${f.id}`,
        askedDeg: 180 - f.angleDeg,
        fold: f.id,
      })),
      ...wishedAngles(part),
    ],
  };
};

/**
 * Measures that compare the file with what was made: outline, holes and fold lines, each as a
 * whole.
 */
const asMade = (flat: FlatPattern, known: readonly LookedFor[]): AskedMeasure[] => {
  const wholes: readonly (readonly [name: string, between: Place[]])[] = [
    ['outline as it was made', [{ kind: 'cut', of: -1 }]],
    [
      'holes as they were made',
      known.flatMap(({ of }): Place[] => (of === undefined ? [] : [{ kind: 'cut', of }])),
    ],
    [
      'fold lines as they were drawn',
      flat.bends.map(({ id }): Place => ({ kind: 'line', fold: id })),
    ],
  ];
  return wholes
    .filter(([, between]) => between.length > 0)
    .map(([name, between]) => ({ name, askedMm: 0, between }));
};

const cutVertices = (loop: Loop): CutVertex[] => loop.map((v) => [step(v.x), step(v.y), v.bulge]);

const holeVertices = (hole: FlatCutout): CutVertex[] =>
  cutVertices(
    hole.kind === 'round' ? circleContour(hole.centre, hole.diameterMm / 2).loop : hole.loop,
  );

/**
 * Figures for the JSON, without the noise of the arithmetic. Where an input and a measure have the
 * same name, the input gets the number.
 */
const tidied = (
  wished: readonly AskedMeasure[],
  measures: readonly AskedMeasure[],
): AskedMeasure[] => {
  const seen = new Map<string, number>();
  const tidy = (m: AskedMeasure): AskedMeasure => ({
    ...m,
    name: numbered(m.name, seen),
    askedMm: step(m.askedMm),
    between: m.between.map(tidiedPlace),
  });
  const others = measures.map(tidy);
  return [...wished.map(tidy), ...others];
};

const tidiedPlace = (place: Place): Place => {
  const point = ([x, y]: Vec2): Vec2 => [step(x), step(y)];
  if ('from' in place) return { ...place, from: point(place.from), to: point(place.to) };
  return 'at' in place ? { ...place, at: point(place.at) } : place;
};

/** A millionth of a millimetre is accurate enough to find a line again. */
const step = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;

/** Numbers a name that occurs again. */
const numbered = (name: string, seen: Map<string, number>): string => {
  const n = (seen.get(name) ?? 0) + 1;
  seen.set(name, n);
  return n === 1 ? name : `${name} (${n})`;
};

/** What is cut of a flat pattern: its holes in their order, without those that are only marked. */
export interface WhatIsCut {
  readonly outline: Loop;
  readonly holes: readonly (FlatCutout | undefined)[];
}

/** Holes as they are searched for in a file. */
const cutHolesOf = (flat: FlatPattern, { holes }: WhatIsCut): LookedFor[] => {
  let next = 0;
  return flat.cutouts.map((hole, i): LookedFor => {
    const cut = holes[i];
    const centre = hole.kind === 'round' ? hole.centre : centroidOf(hole.loop);
    if (cut === undefined)
      return {
        hole,
        middle: { kind: 'mark', panel: hole.panel, at: [step(centre[0]), step(centre[1])] },
      };
    const of = next++;
    return {
      hole,
      of,
      middle: { kind: 'centre', panel: hole.panel, of },
      ...(cut.kind === 'round' && cut !== hole && { piercedMm: cut.diameterMm }),
    };
  });
};

/** The holes of all panels; they are cut in the order of the part. */
const holesOf = (part: Part, known: readonly LookedFor[]): AskedHole[] => {
  const holes: AskedHole[] = [];
  const seen = new Map<string, number>();
  for (const panel of part.panels) {
    for (const cutout of panel.cutouts) {
      const hole = askedHole(panel, cutout, known[holes.length] as LookedFor);
      holes.push({ ...hole, name: numbered(hole.name, seen) });
    }
  }
  return holes;
};

/** The width of the first slot of each row. */
const slotWidths = (part: Part, flat: FlatPattern, known: readonly LookedFor[]): AskedMeasure[] =>
  part.folds.flatMap(({ id, slots }): AskedMeasure[] => {
    const at = flat.cutouts.findIndex((c) => c.kind === 'loop' && c.fold === id);
    const [slot, of] = [flat.cutouts[at], known[at]?.of];
    if (slots === undefined || slot?.kind !== 'loop' || of === undefined) return [];
    const i = slot.loop.findIndex((v) => v.bulge === 0);
    const { from, to } = pieceOf(slot.loop, i);
    return [
      {
        name: `slots of fold ${id}, width`,
        askedMm: slots.widthMm,
        between: [{ kind: 'width', of, from, to }],
      },
    ];
  });

/**
 * A point well inside a panel and the blank: the middle of the panel's area, or else, of the
 * middles between two of its corners, the one farthest from all edges.
 */
const innermost = (region: Loop, outline: Loop): Vec2 => {
  const depth = (p: Vec2): number =>
    isInside(region, p) && isInside(outline, p)
      ? Math.min(distanceFromLoop(p, region), distanceFromLoop(p, outline))
      : -1;
  const centre = centroidOf(region);
  if (depth(centre) > WELL_INSIDE_MM) return centre;
  const points = region.map((v): Vec2 => [v.x, v.y]);
  const middles = points.flatMap((p, i) => points.slice(i + 1).map((q) => middle(p, q)));
  return middles
    .slice(0, MOST_TRIED)
    .reduce((best, p) => (depth(p) > depth(best) ? p : best), centre);
};

const WELL_INSIDE_MM = 1;
const MOST_TRIED = 200;
