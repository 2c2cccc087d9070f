import type { Asked } from '../contract/asked.ts';
import { isInside } from '../geometry/inside.ts';
import type { Loop } from '../geometry/loop.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import type { Contour } from './contours.ts';
import type { FoldedRegions } from './folded.ts';
import { type Alignment, placed } from './placing.ts';

/** A folded file, ready to be measured. */
export interface FoldedFile {
  readonly asked: Asked;
  readonly to: Alignment;
  readonly outline: Contour;
  /** The holes of the file now, in the order of the holes that were made. */
  readonly holes: readonly (Contour | undefined)[];
  /** Middles of the lines that are marked. */
  readonly marks: readonly Vec2[];
  readonly regions: readonly Loop[];
  readonly folded: FoldedRegions;
}

/** The region that a panel became: the one that holds the point which lay well inside the panel. */
export const regionOf = (body: FoldedFile, panel: string): number | undefined => {
  const regions = known.get(body) ?? new Map<string, number | undefined>();
  if (regions.size === 0) known.set(body, regions);
  if (!regions.has(panel)) regions.set(panel, regionAt(body, panel));
  return regions.get(panel);
};

/** The regions of panels that were asked for before: every length asks for those of its ends. */
const known = new WeakMap<FoldedFile, Map<string, number | undefined>>();

const regionAt = ({ asked, to, regions }: FoldedFile, panel: string): number | undefined => {
  const at = asked.panels.find((p) => p.name === panel)?.at;
  const region = at === undefined ? -1 : regions.findIndex((r) => isInside(r, placed(to, at)));
  return region < 0 ? undefined : region;
};
