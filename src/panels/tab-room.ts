import { dot3 } from '../geometry/vec3.ts';
import { type Finding, refuse } from '../model/finding.ts';
import { atLeast, figure } from '../text/figures.ts';
import { type Flaw, flawOf, type Layout, leastWidth, placesOf } from './tab-layout.ts';
import type { Site } from './tab-site.ts';
import type { TabbedPiece } from './tabs.ts';

/** How a tab that has no room is told: its edge, its panel, the piece with the teeth and the input. */
export interface Told {
  readonly on: string;
  readonly into: string;
  readonly piece: TabbedPiece;
  readonly input: string;
}

const TRIED_STEP_MM = 0.5;
const FARTHEST_MM = 50;

/** Says what has no room, and the figures that would pass. */
export function noRoom(told: Told, site: Site, asked: Layout, why: Flaw): Finding {
  const { on, into, input } = told;
  const t = figure(site.one.thicknessMm);
  const teeth = `${asked.count} ${asked.count === 1 ? 'tooth' : 'teeth'} ${figure(asked.widthMm)} wide on ${on}`;
  const what = {
    narrow: `${teeth} are too narrow for the reliefs in the corners of their slots, ${figure(asked.reliefMm)} wide each`,
    crowded: `${teeth} stand too close: between the reliefs beside them there is less than a thickness, ${t} mm`,
    foot: `${teeth} have no room there: with their reliefs they do not stay a thickness, ${t} mm, off the ends of the edge, bends, holes and other teeth`,
    slot: `${teeth} have no room in ${into}: their slots do not stay a thickness, ${figure(site.other.thicknessMm)} mm, off its edges, bends and holes`,
  }[why];
  const others = [...widthThatPasses(site, asked), ...countThatPasses(site, asked)];
  return refuse(
    'tab-without-room',
    [input],
    what,
    [],
    ...(others.length > 0 ? others : placeThatPasses(told, site, asked)),
  );
}

const widthThatPasses = (site: Site, asked: Layout): string[] => {
  const least = leastWidth(asked.reliefMm);
  const passes = (widthMm: number): boolean => flawOf(site, { ...asked, widthMm }) === undefined;
  if (asked.widthMm < least) return passes(least) ? [`give width ${atLeast(least)} or more`] : [];
  for (
    let mm = Math.floor(asked.widthMm / TRIED_STEP_MM) * TRIED_STEP_MM;
    mm >= least;
    mm -= TRIED_STEP_MM
  )
    if (passes(mm)) return [`give width ${figure(mm)}`];
  return [];
};

const countThatPasses = (site: Site, asked: Layout): string[] => {
  for (let count = asked.count - 1; count > 0; count--)
    if (flawOf(site, { ...asked, count }) === undefined) return [`give count ${count}`];
  return [];
};

/** How far the slots have to be moved across to lie on metal, and by which input where that is one. */
const placeThatPasses = (told: Told, site: Site, asked: Layout): string[] => {
  const { piece, on, into } = told;
  const { insetMm } = piece;
  for (let mm = TRIED_STEP_MM; mm <= FARTHEST_MM; mm += TRIED_STEP_MM)
    for (const way of [1, -1]) {
      if (flawOf(site, asked, way * mm) !== undefined) continue;
      const [from, to] = placesOf(site, asked)[0] ?? [0, 0];
      const { across } = site.slot(from, to, asked.clearanceMm);
      const isInwards = way * dot3(across, piece.place?.pose.z ?? across) < 0;
      return insetMm !== undefined && isInwards
        ? [`give fits of ${piece.name} an inset of ${figure(insetMm + mm)}`]
        : [`let ${on} meet ${into} ${figure(mm)} mm farther from what is in the way`];
    }
  return ['leave the tabs out, or place them where there is metal'];
};
