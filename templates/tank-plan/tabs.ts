import {
  bodyOf,
  clearanceInSlots,
  clearanceTaken,
  distance,
  figure,
  flawOf,
  isOnMetal,
  leastWidth,
  listIn,
  mapIn,
  note,
  orMore,
  piecesOf,
  placedIn,
  placesOf,
  refuse,
  siteAt,
  subtract,
  usualClearance,
  withTeeth,
} from '../../src/template.ts';
import type {
  Cutout,
  Finding,
  Fold,
  FoldSide,
  Loop,
  Part,
  Piece,
  Pose,
  SitePanel,
  TabLayout,
  TabSite,
  Tooth,
  Vertex,
} from '../../src/template.ts';
import type { TankPlan } from './inputs.ts';
import { isFloorName } from './steps.ts';

/** Teeth on the edges of the sides and slots for them, by piece and panel. */
interface Made {
  readonly teeth: Map<string, Map<string, Map<number, Tooth[]>>>;
  readonly slots: Map<string, Cutout[]>;
  readonly notches: Map<string, Loop[]>;
}

/** A panel where it stands, with its piece. */
interface Standing extends SitePanel {
  readonly piece: Piece;
}

/** Pieces with tabs between sides and plates, and what is told of them. */
export interface TabbedPieces {
  readonly pieces: readonly Piece[];
  readonly findings: readonly Finding[];
}

/**
 * The sides with teeth on the edges that a floor or top lies over, as many as asked for or as have
 * room, and slots for them there. Where a slot would lie less than a thickness from the edge of the
 * plate it is open to that edge.
 */
export const withTankTabs = (v: TankPlan, pieces: readonly Piece[]): TabbedPieces => {
  if (v.tabs === 0) return { pieces, findings: [] };
  if (v.tabWidth < leastWidth(v.leastSlotMm)) return { pieces, findings: [tooNarrow(v)] };
  const standing = pieces.flatMap(panelsOf);
  const sides = standing.filter(({ panel }) => /^side \d+$/.test(panel.id));
  const plates = standing.filter(({ panel, piece }) => isTabbed(v, panel.id, piece));
  const made: Made = { teeth: new Map(), slots: new Map(), notches: new Map() };
  const fewer = sides.flatMap((side) => tabsOn(v, side, plates, made));
  return {
    pieces: pieces.map((piece) => ({ ...piece, part: cutInto(piece, made) })),
    findings: [...clearances(v, made), ...(fewer.length === 0 ? [] : [tabsFewer(v, fewer)])],
  };
};

/** What clearance was taken; a notch is open, and may be narrower than the cutter's narrowest slot. */
const clearances = (v: TankPlan, { slots, notches }: Made): Finding[] => {
  const taken = [
    ...(slots.size > 0 ? [clearanceInSlots(v)] : []),
    ...(notches.size > 0 ? [usualClearance(v)] : []),
  ];
  return [...new Map(taken.map((one) => [one.mm, one])).values()].map(clearanceTaken);
};

/** Floor and top that lie over the edges of the sides. */
const isTabbed = (v: TankPlan, panel: string, { id }: Piece): boolean =>
  (id === 'top' && panel === 'top' && v.topSeam === 'edge') ||
  (id.startsWith('floor') && isFloorName(panel) && v.floorSeam === 'edge');

const panelsOf = (piece: Piece): Standing[] => {
  const pose = piece.standing?.poses[0] as Pose;
  return (bodyOf(piece.part)?.panels ?? []).map((panel) => ({
    piece,
    panel,
    pose: placedIn(pose, panel),
    thicknessMm: piece.part.thicknessMm,
    cutouts: panel.panel.cutouts,
    taken: [],
  }));
};

/** Makes the tabs of all edges of a side, and names the edges that have room for fewer. */
const tabsOn = (v: TankPlan, side: Standing, plates: readonly Standing[], made: Made): string[] => {
  const folds = side.piece.part.folds.flatMap(({ parent, child }) => [parent, child]);
  return side.panel.panel.outline.flatMap(({ edge = '', bulge }, index) => {
    const isFolded = folds.some((end) => end.panel === side.panel.id && end.edge === index);
    if (bulge !== 0 || isFolded || !/^(top|bottom)/.test(edge)) return [];
    const met = plates.flatMap((plate) => {
      const site = siteAt(side, index, plate);
      const isMet =
        typeof site !== 'string' && Math.abs(site.shortMm - v.cornerGapMm) < v.thicknessMm;
      return isMet && edge.startsWith('top') === (plate.panel.id === 'top')
        ? [{ plate, site }]
        : [];
    });
    const [found] = met;
    if (found === undefined) return [];
    const count = cutTabs(v, side, found.plate, found.site, made);
    return count < v.tabs ? [`${side.panel.id} at ${found.plate.panel.id}: ${count}`] : [];
  });
};

/** Cuts as many tabs as have room, and says how many these are. */
const cutTabs = (
  v: TankPlan,
  side: Standing,
  plate: Standing,
  site: TabSite,
  made: Made,
): number => {
  for (let count = v.tabs; count > 0; count--) {
    const layout: TabLayout = {
      count,
      widthMm: v.tabWidth,
      fromMm: undefined,
      pitchMm: undefined,
      clearanceMm: clearanceInSlots(v).mm,
      reliefMm: v.leastSlotMm,
    };
    const flaw = flawOf(site, layout);
    const notches = notchesOf(side, site, { ...layout, clearanceMm: usualClearance(v).mm });
    const all = [...(made.notches.get(plate.panel.id) ?? []), ...notches];
    if (flaw !== undefined && (flaw !== 'slot' || !areWhole(plate, all))) continue;
    for (const [from, to] of placesOf(site, layout)) {
      const tooth = { from, to, outMm: site.toothMm, reliefMm: layout.reliefMm };
      listIn(mapIn(mapIn(made.teeth, side.piece.id), side.panel.id), site.edgeIndex).push(tooth);
      if (flaw !== undefined) continue;
      const slots = listIn(made.slots, plate.panel.id);
      slots.push({
        kind: 'loop',
        from: `slot ${slots.length + 1} for ${side.panel.id}`,
        inputs: ['tabs'],
        loop: site.slot(from, to, layout.clearanceMm).loop(layout.reliefMm),
      });
    }
    if (flaw !== undefined) listIn(made.notches, plate.panel.id).push(...notches);
    return count;
  }
  return 0;
};

const notchesOf = (side: Standing, site: TabSite, layout: TabLayout): Loop[] =>
  placesOf(site, layout).map(([from, to]) =>
    site
      .slot(from, to, layout.clearanceMm)
      .notch(layout.reliefMm, side.pose.z, OVER_EDGE * side.thicknessMm),
  );

/** A notch reaches so many thicknesses beyond its tooth: what is left there is no more than one. */
const OVER_EDGE = 3;

/** Whether notches leave a plate in one piece, clear of its holes, each open to one edge of it. */
const areWhole = (plate: Standing, notches: readonly Loop[]): boolean => {
  const { outline } = plate.panel.panel;
  const left = notched(outline, notches);
  // A notch lies within itself: what is asked is whether it is off the holes.
  const isClear = (notch: Loop): boolean =>
    isOnMetal({ ...plate, panel: { ...plate.panel, region: notch } }, notch);
  return left?.length === outline.length + notches.length * NOTCH_CORNERS && notches.every(isClear);
};

/** Both corners at the edge, the two inner ones, and both ends of the flat between their half rounds. */
const NOTCH_CORNERS = 6;

const notched = (outline: Loop, notches: readonly Loop[]): Loop | undefined =>
  notches.reduce<Loop | undefined>((left, notch) => {
    const parts =
      left === undefined
        ? undefined
        : subtract(left, notch, ([x, y], bulge): Vertex => ({ x, y, bulge }));
    return parts?.length === 1 ? parts[0] : undefined;
  }, outline);

/** A piece with its teeth, slots and notches. */
const cutInto = ({ id, part }: Piece, { teeth, slots, notches }: Made): Part => {
  const own = teeth.get(id);
  if (own !== undefined) return withTeeth(part, own);
  const panels = part.panels.map((panel) => ({
    ...panel,
    outline: notched(panel.outline, notches.get(panel.id) ?? []) ?? panel.outline,
    cutouts: [...panel.cutouts, ...(slots.get(panel.id) ?? [])],
  }));
  const moved = (end: FoldSide): FoldSide => {
    const find = (all: readonly { readonly id: string; readonly outline: Loop }[]): Loop =>
      all.find((panel) => panel.id === end.panel)?.outline ?? [];
    const edge = piecesOf(find(part.panels))[end.edge];
    const index = piecesOf(find(panels)).findIndex(
      ({ from, to }) =>
        edge !== undefined && distance(from, edge.from) + distance(to, edge.to) < SAME_EDGE_MM,
    );
    return { ...end, edge: index };
  };
  return {
    ...part,
    panels,
    folds: part.folds.map((fold): Fold => ({
      ...fold,
      parent: moved(fold.parent),
      child: moved(fold.child),
    })),
  };
};

/** An edge whose ends have moved by less is the same. */
const SAME_EDGE_MM = 1e-6;

const tooNarrow = (v: TankPlan): Finding =>
  refuse(
    'tab-without-room',
    ['tabWidth'],
    `tabWidth ${figure(v.tabWidth)} is too narrow for the reliefs in the corners of the slots, ${figure(v.leastSlotMm)} wide each`,
    [orMore('tabWidth', leastWidth(v.leastSlotMm))],
  );

const tabsFewer = (v: TankPlan, fewer: readonly string[]): Finding =>
  note(
    'tabs-fewer',
    `Some edges have no room for ${v.tabs} tabs ${figure(v.tabWidth)} wide, clear of corners, bends and holes, and have fewer: ${fewer.join('; ')}.`,
  );
