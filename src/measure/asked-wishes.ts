import { dot, type Vec2 } from '../geometry/vec2.ts';
import { movePoint, moveVector } from '../geometry/motion2.ts';
import type { FlatCutout, FlatPattern } from '../model/flat.ts';
import { holeCalled } from '../model/hole-names.ts';
import type { Part } from '../model/part.ts';
import type { AngleWish, Facing, Feature, RolledWish } from '../model/wish.ts';
import type { AskedAngle, AskedMeasure, Place } from '../contract/asked.ts';
import type { LookedFor } from './asked-holes.ts';
import { type FreeLine, freeLinesOf } from './panel-lines.ts';

/** What the inputs of a part mean on it, as lengths between things that can be touched. */
export const wishedMeasures = (
  part: Part,
  flat: FlatPattern,
  known: readonly LookedFor[],
): AskedMeasure[] => {
  const holes = new Map(known.map((k) => [`${k.hole.panel}: ${k.hole.from}`, k] as const));
  const holeAt = (panel: string, from: string): LookedFor | undefined =>
    holes.get(`${panel}: ${from}`);
  const placeOf = placeFinder(part, flat, holeAt);
  return (part.wishes ?? []).flatMap((wish): AskedMeasure[] => {
    if (wish.kind === 'angle') return [];
    if (wish.kind === 'rolled') return rolledMeasure(flat, wish);
    const { input, mm } = wish;
    const asked = (between: readonly Place[], of: readonly LookedFor[]): AskedMeasure => ({
      name: input,
      ...(of.length > 0 &&
        calledBy(
          input,
          of.map(({ hole }) => hole),
        )),
      askedMm: mm,
      input,
      between,
    });
    if (wish.kind === 'diameter') {
      const own = wish.from === null ? undefined : holeAt(wish.panel, wish.from);
      const hole = own ?? { of: wish.from === null ? -1 : NOWHERE };
      // The size of a drilled hole comes from the drill.
      return hole.of === undefined || 'piercedMm' in hole
        ? []
        : [asked([{ kind: 'diameter', of: hole.of }], own === undefined ? [] : [own])];
    }
    const [one, other] = wish.between.map(placeOf);
    // The middle of a hole is looked for on the lower face, unless it was meant on the upper one.
    const isUpper = wish.between.some((f) => f.kind === 'hole' && f.face === 'upper');
    return one === undefined || other === undefined
      ? []
      : [
          {
            ...asked(
              placesOf([one, other]),
              wish.between.flatMap((f) =>
                f.kind === 'hole' ? (holeAt(f.panel, f.from) ?? []) : [],
              ),
            ),
            ...(isUpper && { heightMm: part.thicknessMm }),
          },
        ];
  });
};

/** The same on the blank. */
const rolledMeasure = (flat: FlatPattern, wish: RolledWish): AskedMeasure[] => {
  const { input, mm, frame, shape, plane } = wish;
  const placement = flat.panels.find(({ id }) => id === wish.panel)?.placement;
  if (placement === undefined) return [];
  const placed = (p: Vec2): Vec2 => movePoint(placement, p);
  const place = {
    kind: 'rolled',
    frame: {
      at: placed(frame.at),
      round: moveVector(placement, frame.round),
      axis: moveVector(placement, frame.axis),
    },
    shape,
    from: placed(wish.from),
    to: placed(wish.to),
  } as const;
  const between: Place =
    plane === undefined ? { ...place, what: 'apart' } : { ...place, what: 'plane', ...plane };
  return [{ name: input, askedMm: mm, input, between: [between] }];
};

/**
 * The name of a wish with its holes: where it calls them by their inputs, in the place of these:
 * `h1 (holesA 1) from fold`; otherwise behind it: `boltCircle (h2 to h5)`.
 */
const calledBy = (
  input: string,
  holes: readonly FlatCutout[],
): Pick<AskedMeasure, 'holes' | 'called'> => {
  const keys = holes.flatMap(({ name }) => name ?? []);
  const called = holes.reduce((text, hole) => withName(text, hole), input);
  return { holes: keys, called: called === input ? `${input} (${keys.join(' to ')})` : called };
};

/** The text with the first mention of what a hole came from replaced by what the hole is called. */
const withName = (text: string, hole: FlatCutout): string => {
  const { from } = hole;
  const starts = ['', ', ', ' to '].flatMap((before) => {
    const at = before === '' ? 0 : text.lastIndexOf(before + from);
    const start = at + before.length;
    const rest = text.slice(start);
    return at >= 0 && rest.startsWith(from) && !/^[\w.]/.test(rest.slice(from.length)) ? start : [];
  });
  const [start] = starts;
  return start === undefined
    ? text
    : text.slice(0, start) + holeCalled(hole) + text.slice(start + from.length);
};

/** The places in order; a plane, which distances are taken from, comes last. */
const placesOf = (places: readonly Place[]): readonly Place[] =>
  places.toSorted((a, b) => Number(a.kind === 'face') - Number(b.kind === 'face'));

/** What the inputs mean as angles between faces. */
export const wishedAngles = (part: Part): AskedAngle[] =>
  (part.wishes ?? [])
    .filter((w): w is AngleWish => w.kind === 'angle')
    .map(({ input, deg, panels }) => ({
      name: input,
      askedDeg: Math.round((180 - Math.abs(deg)) * 1e6) / 1e6,
      fold: null,
      panels,
      input,
    }));

const placeFinder = (
  part: Part,
  flat: FlatPattern,
  holeAt: (panel: string, from: string) => LookedFor | undefined,
): ((feature: Feature) => Place | undefined) => {
  const lines = new Map<string, readonly FreeLine[]>();
  return (feature) => {
    const { panel } = feature;
    switch (feature.kind) {
      case 'face':
        return { kind: 'face', panel, heightMm: feature.face === 'lower' ? 0 : part.thicknessMm };
      case 'fold':
        return { kind: 'mould', panel, fold: feature.fold, measure: feature.measure };
      case 'hole':
        return holeAt(panel, feature.from)?.middle ?? { kind: 'centre', panel, of: NOWHERE };
      case 'edge': {
        const own =
          lines.get(panel) ??
          freeLinesOf(
            flat,
            part.panels.find((p) => p.id === panel),
          );
        lines.set(panel, own);
        return edgeFacing(own, feature.facing);
      }
    }
  };
};

/** A number that no hole of a blank has: what was to be measured is missing, and is reported so. */
const NOWHERE = 1e9;

const WAY: Readonly<Record<Facing, Vec2>> = {
  left: [-1, 0],
  right: [1, 0],
  up: [0, 1],
  down: [0, -1],
};

/** An edge that is turned away farther than 30 degrees faces another way. */
const LEAST_FACING = Math.cos(Math.PI / 6);

/**
 * The farthest edge that faces a direction. A panel whose end is round or comes to a point has none
 * to measure from; an edge that the panel has and the blank lacks is reported as lost.
 */
const edgeFacing = (lines: readonly FreeLine[], facing: Facing): Place | undefined => {
  const way = WAY[facing];
  const looking = lines.filter(({ dir: [x, y] }) => y * way[0] - x * way[1] > LEAST_FACING);
  const farthest = looking.reduce<FreeLine | undefined>(
    (best, l) => (best === undefined || dot(l.middle, way) > dot(best.middle, way) ? l : best),
    undefined,
  );
  return farthest === undefined
    ? undefined
    : (farthest.place ?? {
        kind: 'edge',
        panel: farthest.panel,
        of: NOWHERE,
        from: [0, 0],
        to: [0, 0],
      });
};
