import { arcOf } from '../geometry/arc.ts';
import { isInside } from '../geometry/inside.ts';
import type { Loop } from '../geometry/loop.ts';
import { moveLoop, movePoint } from '../geometry/motion2.ts';
import { pieceOf, piecesOf, pointOn } from '../geometry/piece.ts';
import { posePoint, type Pose } from '../geometry/pose.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import { distance, middle, type Vec2 } from '../geometry/vec2.ts';
import { length3, sub3, type Vec3 } from '../geometry/vec3.ts';
import type { FlatCutout, FlatPattern } from '../model/flat.ts';
import type { Panel, Part } from '../model/part.ts';
import type { Asked, AskedAngle, AskedMeasure, CutVertex, Place } from '../contract/asked.ts';
import { gapsOf } from './asked-gaps.ts';
import { type AskedHole, askedHole, datumsOf, type LookedFor, sizesOf } from './asked-holes.ts';
import { centroidOf } from './centroid.ts';
import { circleContour, contourOf } from './contours.ts';
import { fromLine, idealPoses } from './ideal.ts';
import { wishedAngles, wishedMeasures } from './asked-wishes.ts';
import { distanceFromLoop } from './distances.ts';
import {
  cornersOf,
  isSteady,
  linesOf,
  type PanelLine,
  placementOf,
  SAME_BLANK_POINT_MM,
  widthsOf,
} from './panel-lines.ts';
import { PARALLEL_SINE } from '../geometry/tolerance.ts';

/**
 * What a part is asked to measure, by its mould lines alone. Of the flat pattern it takes nothing
 * but where on the blank each thing is to be looked for: a pattern that puts it in the wrong place
 * gives a wrong measure, not a wrong question. `cut` is what is cut of it, with what was changed on
 * purpose: nicks in the outline, a hole that is pierced or marked to be drilled.
 */
export const askedOf = (
  part: Part,
  flat: FlatPattern,
  kerfMm: number,
  cut: WhatIsCut = { outline: flat.outline, holes: flat.cutouts },
): Asked => {
  const { outline } = flat;
  const lines = new Map(part.panels.map((p) => [p.id, linesOf(part, flat, p)]));
  const known = cutHolesOf(flat, cut);
  const holes = holesOf(part, known);
  const poses = idealPoses(part);
  return {
    thicknessMm: part.thicknessMm,
    measure: part.measure,
    kerfMm,
    panels: flat.panels.map((p) => {
      const [x, y] = innermost(moveLoop(p.placement, p.region), outline);
      return { name: p.id, at: [step(x), step(y)] };
    }),
    cut: {
      outline: cutVertices(cut.outline),
      holes: cut.holes
        .filter((h) => h !== undefined)
        .map((h) =>
          cutVertices(h.kind === 'round' ? circleContour(h.centre, h.diameterMm / 2).loop : h.loop),
        ),
    },
    bends: flat.bends,
    measures: tidied(wishedMeasures(part, flat, known), [
      ...part.panels.flatMap((panel) =>
        ofPanel(part, flat, panel, lines.get(panel.id) as PanelLine[], holes),
      ),
      ...acrossFolds(part, holes, poses),
      ...cornerToCorner(part, flat, poses),
      ...gapsOf(part, flat),
      ...slotWidths(part, flat, known),
      { name: 'outline as it was made', askedMm: 0, between: [{ kind: 'cut', of: -1 }] },
      ...(known.every((h) => h.of === undefined)
        ? []
        : [
            {
              name: 'holes as they were made',
              askedMm: 0,
              between: known.flatMap(({ of }): Place[] =>
                of === undefined ? [] : [{ kind: 'cut', of }],
              ),
            },
          ]),
      ...(flat.bends.length === 0
        ? []
        : [
            {
              name: 'fold lines as they were drawn',
              askedMm: 0,
              between: flat.bends.map(({ id }): Place => ({ kind: 'line', fold: id })),
            },
          ]),
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

const cutVertices = (loop: Loop): CutVertex[] => loop.map((v) => [step(v.x), step(v.y), v.bulge]);

/**
 * Figures for the JSON, without the noise of the arithmetic; of an input and a measure of one name
 * the input gets the number.
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

/** A millionth of a millimetre is enough to find a line again. */
const step = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;

/** A name that comes again gets a number. */
const numbered = (name: string, seen: Map<string, number>): string => {
  const n = (seen.get(name) ?? 0) + 1;
  seen.set(name, n);
  return n === 1 ? name : `${name} (${n})`;
};

/** What is cut of a flat pattern: holes in its order, none of those that are only marked. */
export interface WhatIsCut {
  readonly outline: Loop;
  readonly holes: readonly (FlatCutout | undefined)[];
}

/** Holes as they are looked for in a file. */
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

/** The holes of all panels are cut in the order of the part. */
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

const ofPanel = (
  part: Part,
  flat: FlatPattern,
  panel: Panel,
  lines: readonly PanelLine[],
  all: readonly AskedHole[],
): AskedMeasure[] => {
  const holes = all.filter((h) => h.panel === panel.id);
  const placement = placementOf(flat, panel);
  const around = contourOf(panel.outline).circle;
  const whole =
    part.folds.length === 0
      ? {
          name: 'the middle of the part',
          centre: centroidOf(panel.outline),
          middle: { kind: 'centre', panel: panel.id, of: -1 } as const,
        }
      : undefined;
  return [
    ...widthsOf(panel, lines),
    ...(around === undefined
      ? [...radiiOf(flat, panel), ...slantsOf(flat, panel, lines)]
      : [
          {
            name: `diameter of ${panel.id}`,
            askedMm: 2 * around.radius,
            between: [{ kind: 'diameter', of: -1 } as const],
          },
        ]),
    ...holes.flatMap((hole, i) => {
      const before = holes[i - 1];
      return [
        ...sizesOf(hole, placement),
        ...datumsOf(
          hole,
          lines,
          before === undefined
            ? whole
            : { name: before.name, centre: before.centre, middle: before.middle },
        ),
      ];
    }),
  ];
};

/**
 * Bulge of an arc of 40 degrees: of a shorter one the rounding of its ends says more than its
 * radius.
 */
const LEAST_ROUND = 0.175;

/** Radii of a panel's round edges, as far as they came through to the blank. */
const radiiOf = (flat: FlatPattern, panel: Panel): AskedMeasure[] =>
  panel.outline.flatMap((v, edge): AskedMeasure[] => {
    if (Math.abs(v.bulge) < LEAST_ROUND) return [];
    const p = pieceOf(panel.outline, edge);
    const { centre, radius } = arcOf(p.from, p.to, p.bulge);
    const at = movePoint(placementOf(flat, panel), centre);
    const cut = piecesOf(flat.outline).find(
      (q) =>
        q.bulge * v.bulge > 0 &&
        Math.abs(q.bulge) > LEAST_ROUND &&
        distance(arcOf(q.from, q.to, q.bulge).centre, at) < SAME_BLANK_POINT_MM,
    );
    return cut === undefined
      ? []
      : [
          {
            name: `radius ${edge + 1} of ${panel.id}`,
            askedMm: radius,
            between: [{ kind: 'radius', of: -1, at: pointOn(cut, 0.5) }],
          },
        ];
  });

/**
 * Corners beside an edge that runs side by side with no other are measured from the fold, or from
 * an edge, each.
 */
const slantsOf = (flat: FlatPattern, panel: Panel, lines: readonly PanelLine[]): AskedMeasure[] => {
  const base = lines.find((l) => l.fold !== undefined) ?? lines[0];
  if (base === undefined) return [];
  const square = (a: PanelLine): boolean =>
    lines.some(
      (b) => b !== a && Math.abs(a.dir[0] * b.dir[1] - a.dir[1] * b.dir[0]) < PARALLEL_SINE,
    );
  if (lines.every(square)) return [];
  return cornersOf(flat, panel).flatMap(({ own, at }, i): AskedMeasure[] => {
    const askedMm = fromLine(own, base);
    if (askedMm < 0.1 || !isSteady(base, own)) return [];
    return [
      {
        name: `corner ${i + 1} of ${panel.id} from ${base.fold === undefined ? 'its first edge' : `fold ${base.fold}`}`,
        askedMm,
        between: [{ kind: 'corner', panel: panel.id, at }, base.place],
      },
    ];
  });
};

const inSpace = (poses: ReadonlyMap<string, Pose>, panel: string, [x, y]: Vec2, z: number): Vec3 =>
  posePoint(poses.get(panel) as Pose, [x, y, z]);

/**
 * Across each fold the nearest two holes; and the first and the last hole of a part of several
 * folds.
 */
const acrossFolds = (
  part: Part,
  holes: readonly AskedHole[],
  poses: ReadonlyMap<string, Pose>,
): AskedMeasure[] => {
  const between = (a: AskedHole, b: AskedHole, heightMm: number): AskedMeasure => ({
    name: `${a.name} to ${b.name}`,
    askedMm: length3(
      sub3(
        inSpace(poses, a.panel, a.centre, heightMm),
        inSpace(poses, b.panel, b.centre, heightMm),
      ),
    ),
    between: [a.middle, b.middle],
    heightMm,
  });
  const nearest = part.folds.flatMap((f) => {
    const [ours, theirs] = [f.parent, f.child].map((s) =>
      holes.filter((h) => h.panel === s.panel),
    ) as [AskedHole[], AskedHole[]];
    const face =
      f.midSurface === true
        ? part.thicknessMm / 2
        : (f.direction === 'up') === (part.measure === 'outside')
          ? 0
          : part.thicknessMm;
    const all = ours.flatMap((a) => theirs.map((b) => between(a, b, face)));
    return all.length === 0
      ? []
      : [all.reduce((best, m) => (m.askedMm < best.askedMm - NOISE_MM ? m : best))];
  });
  const [first, last] = [holes[0], holes.at(-1)];
  if (
    first === undefined ||
    last === undefined ||
    part.folds.length < 2 ||
    first.panel === last.panel
  )
    return nearest;
  const whole = between(first, last, 0);
  return nearest.some((m) => m.name === whole.name) ? nearest : [...nearest, whole];
};

/** The two corners of the finished part that lie farthest apart, on different panels. */
const cornerToCorner = (
  part: Part,
  flat: FlatPattern,
  poses: ReadonlyMap<string, Pose>,
): AskedMeasure[] => {
  if (part.folds.length === 0) return [];
  const corners = part.panels.flatMap((panel) =>
    cornersOf(flat, panel).map((c) => ({
      panel: panel.id,
      at: c.at,
      in: inSpace(poses, panel.id, c.own, 0),
    })),
  );
  let best: AskedMeasure | undefined;
  for (const [i, a] of corners.entries()) {
    for (const b of corners.slice(i + 1)) {
      if (a.panel === b.panel) continue;
      const askedMm = length3(sub3(a.in, b.in));
      // Of those that are equal the first: rounding, which engines do in their own ways, may not
      // decide.
      if (askedMm <= (best?.askedMm ?? 0) + NOISE_MM) continue;
      best = {
        name: `overall, ${a.panel} to ${b.panel}, corner to corner`,
        askedMm,
        between: [a, b].map(({ panel, at }): Place => ({ kind: 'corner', panel, at })),
        heightMm: 0,
      };
    }
  }
  return best === undefined ? [] : [best];
};

/** The first slot of each row. */
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
 * A point well inside a panel and the blank: the middle of its area, or of two of its corners the
 * one farthest from all edges.
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
