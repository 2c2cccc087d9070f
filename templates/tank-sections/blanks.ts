import {
  angleWish,
  assemble,
  MIDDLE_OF_SHEET,
  roundCorners,
  turnedFold,
} from '../../src/template.ts';
import type {
  Cutout,
  GivenFold,
  Loop,
  Piece,
  Pose,
  Vec2,
  Vertex,
  Wish,
} from '../../src/template.ts';
import { chainsOf, letter } from '../tank-plan/chains.ts';
import { point, type Sheet } from '../tank-plan/panels.ts';
import type { TankSections } from './inputs.ts';
import { drawnIn } from './sections.ts';
import { endWishes } from './wishes.ts';
import { type Bay, isAtCorner, onRuling, turnAtDeg, type WallFacet } from './surface.ts';
import {
  type Chain,
  endMm,
  facetName,
  jointAt,
  type Strip,
  turnBefore,
  wallPanel,
} from './wall.ts';

/** A tank between its sections: the bays of its inside, and where both ends are. */
export interface Tank {
  readonly bays: readonly Bay[];
  readonly sheet: Sheet;
  /** The stations of the insides of both ends. */
  readonly firstMm: number;
  readonly lastMm: number;
}

/**
 * How the walls of a bay are parted into blanks. A warped wall is a blank by itself: the crease
 * across it runs into a corner, where no bend could be made beside it.
 */
export const chainsIn = ({ facets }: Bay, v: TankSections): Chain[] => {
  const ofSide = (side: number): number[] =>
    facets.flatMap((facet, i) => (facet.side === side ? [i] : []));
  const isFlat = (side: number): boolean => ofSide(side).length === 1;
  const n = new Set(facets.map(({ side }) => side)).size;
  const seam = v.blanks === 'plates' ? 0 : v.seam - 1;
  const sides = Array.from({ length: n }, (_, side) => side);
  if (sides.every(isFlat))
    return chainsOf({ low: facets.map(({ entry }) => entry.near) }, seam, v.blanks);
  // Round from behind a warped wall, so that none is parted without need.
  const first = sides.find((side) => isFlat(side) && !isFlat((side + n - 1) % n)) ?? 0;
  const chains: number[][] = [];
  for (const side of sides.map((k) => (first + k) % n)) {
    const last = chains.at(-1);
    const isOn =
      v.blanks !== 'plates' &&
      isFlat(side) &&
      last?.length !== undefined &&
      isFlat((facets[last.at(-1) as number] as WallFacet).side);
    if (isOn) last.push(...ofSide(side));
    else chains.push(ofSide(side));
  }
  return chains;
};

/** All blanks of the walls, bay by bay, each cut back where the next bay or an end is. */
export const stripsOf = (v: TankSections, { bays, sheet, firstMm, lastMm }: Tank): Strip[][] =>
  bays.map((bay, k) =>
    chainsIn(bay, v).map((chain): Strip => {
      const at = (end: 'near' | 'far'): number => {
        const isOuter = k === (end === 'near' ? 0 : bays.length - 1);
        const atMm = isOuter
          ? { near: firstMm, far: lastMm }[end]
          : { near: bay.fromMm, far: bay.toMm }[end];
        return endMm(bay, chain, sheet, atMm, isOuter ? sheet.gapMm : sheet.gapMm / 2, end);
      };
      return { bay, chain, sheet, nearMm: at('near'), farMm: at('far') };
    }),
  );

/** The holes of a panel of a bay. */
export type HolesIn = (strip: Strip, facet: number) => readonly Cutout[];

/** The name of a blank of walls. */
const idOf = (strips: readonly (readonly Strip[])[], bay: number, i: number): string => {
  const { bay: of, chain } = (strips[bay] as readonly Strip[])[i] as Strip;
  const [first = 0] = chain;
  const own =
    chain.length < 2 || jointAt({ bay: of, chain }, chain[1] as number) === 'crease'
      ? `wall-${(of.facets[first] as WallFacet).side + 1}`
      : strips[bay]?.length === 1
        ? 'wrap'
        : `wrap-${i + 1}`;
  return strips.length === 1 ? own : `bay-${bay + 1}-${own}`;
};

/** When what belongs to a bay is joined: its walls, then its baffles, while one still gets at them. */
export const turnOf = (bay: number, what: 'walls' | 'baffles'): number =>
  2 * bay + (what === 'walls' ? 2 : 3);

/** The walls of each bay, each blank folded from the one in its middle. */
export const wallBlanks = (
  v: TankSections,
  strips: readonly (readonly Strip[])[],
  holes: HolesIn,
): Piece[][] =>
  strips.map((ofBay, bay) =>
    ofBay.map((strip, i): Piece => {
      const { chain } = strip;
      const panels = chain.map((facet) => ({ facet, placed: wallPanel(strip, facet) }));
      const root = Math.floor((chain.length - 1) / 2);
      const part = assemble(
        // Walls are worked out from the inside of the tank, whichever faces were measured.
        { ...v, measure: 'inside' },
        {
          root: facetName(strip.bay, chain[root] as number),
          panels: panels.map(({ facet, placed }) => ({
            id: placed.name,
            outline: placed.outline,
            cutouts: holes(strip, facet),
          })),
          folds: chain.slice(1).map((facet, k) => foldAt(v, strip, facet, k < root, letter(k))),
          wishes: wallWishes(strip),
        },
      );
      const { pose } = (panels[root] as (typeof panels)[number]).placed;
      return {
        id: idOf(strips, bay, i),
        part,
        standing: { poses: [pose], turn: turnOf(bay, 'walls') },
      };
    }),
  );

/** The fold at the ruling at which a facet begins. */
const foldAt = (
  v: TankSections,
  strip: Strip,
  facet: number,
  isBeforeRoot: boolean,
  id: string,
): GivenFold => {
  const n = strip.bay.facets.length;
  const sides = [
    { panel: facetName(strip.bay, (facet + n - 1) % n), edge: 'exit' },
    { panel: facetName(strip.bay, facet), edge: 'entry' },
  ] as const;
  return {
    ...turnedFold(id, sides, turnBefore(strip.bay, facet), isBeforeRoot, v.insideRadiusMm),
    ...(jointAt(strip, facet) === 'crease' && { rule: MIDDLE_OF_SHEET, midSurface: true }),
  };
};

/** What the sections mean on a blank: the angles between its walls. */
const wallWishes = ({ bay, chain }: Strip): Wish[] =>
  chain.slice(1).map((facet, k) => {
    const [one, other] = [chain[k] as number, facet];
    return angleWish(
      `sections, ${facetName(bay, one)} against ${facetName(bay, other)}`,
      Math.abs(turnAtDeg(bay.facets[one] as WallFacet, bay.facets[other] as WallFacet)),
      facetName(bay, one),
      facetName(bay, other),
    );
  });

/** The corners of the walls at a station, and how far each of them leans there: 1 for not at all. */
const rimAt = (bay: Bay, stationMm: number): { readonly at: Vec2; readonly upright: number }[] =>
  bay.facets.flatMap(({ entry, plane }, i) => {
    if (!isAtCorner(bay, i)) return [];
    const [, y, z] = onRuling(entry, stationMm);
    return [{ at: [y, z] as const, upright: Math.hypot(plane.normal[1], plane.normal[2]) }];
  });

const ENDS = {
  first: { x: [0, 1, 0], z: [1, 0, 0] },
  last: { x: [0, -1, 0], z: [-1, 0, 0] },
} as const;

/** Both ends: flat sheets over the edges of all walls, whose outside they stand back from. */
export const endBlanks = (
  v: TankSections,
  { bays, sheet, firstMm, lastMm }: Tank,
  strips: readonly (readonly Strip[])[],
): { readonly first: Piece; readonly last: Piece } => {
  const made = (which: 'first' | 'last'): Piece => {
    const k = which === 'first' ? 0 : bays.length - 1;
    const [bay, atMm] = [bays[k] as Bay, which === 'first' ? firstMm : lastMm];
    const rim = rimAt(bay, atMm);
    const over = drawnIn(
      rim.map(({ at }) => at),
      rim.map(({ upright }) => sheet.backMm - sheet.thicknessMm / upright),
    );
    const { x, z } = ENDS[which];
    const pose: Pose = { o: [atMm, 0, 0], x, y: [0, 0, 1], z };
    const name = `${which} end`;
    const outline = rounded(over, foldedCorners(strips[k] as readonly Strip[]), sheet);
    const seen = which === 'first' ? outline : mirrored(outline);
    const part = assemble(v, {
      root: name,
      panels: [{ id: name, outline: seen, cutouts: [] }],
      folds: [],
      wishes: endWishes(v, which, sheet.backMm),
    });
    return {
      id: `${which}-end`,
      part,
      standing: {
        poses: [{ ...pose, o: point(pose, [0, 0], -sheet.thicknessMm) }],
        turn: which === 'first' ? 1 : turnOf(bays.length, 'walls'),
      },
    };
  };
  return { first: made('first'), last: made('last') };
};

/** Corners of a bay at which its walls are folded outwards round the inside of the tank. */
const foldedCorners = (strips: readonly Strip[]): number[] =>
  strips.flatMap((strip) =>
    strip.chain.flatMap((facet) =>
      jointAt(strip, facet) === 'fold' && turnBefore(strip.bay, facet) > 0
        ? [(strip.bay.facets[facet] as WallFacet).side]
        : [],
    ),
  );

/** An end rounded as the outside of the bends is. */
const rounded = (corners: readonly Vec2[], folded: readonly number[], sheet: Sheet): Loop => {
  const sharp = corners.map(([x, y], i): Vertex => ({ x, y, bulge: 0, edge: `wall ${i + 1}` }));
  const made = roundCorners(
    sharp,
    folded,
    Math.max(0, sheet.insideRadiusMm + sheet.thicknessMm - sheet.backMm),
  );
  return made.ok ? made.loop : sharp;
};

/** An outline seen from its other side: each edge begins where it ended. */
const mirrored = (loop: Loop): Loop =>
  loop
    .map(({ x, y }, i): Vertex => {
      const { bulge, edge: called } = loop.at(i - 1) as Vertex;
      return { x: -x, y, bulge, ...(called !== undefined && { edge: called }) };
    })
    .toReversed();
