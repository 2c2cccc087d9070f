import { type Extents, loopExtents } from '../geometry/extents.ts';
import { loopGap } from '../geometry/gap.ts';
import type { Loop } from '../geometry/loop.ts';
import { type Metal, overlapDepth, stickingOut } from './overlap-depth.ts';

/** A part as it lies. */
export interface Lying extends Metal {
  readonly name: string;
}

/** What is to be kept, mm. */
export interface Asked {
  readonly gapMm: number;
  /** Least distance from the edges of what the parts lie on, holes in it included. */
  readonly edgeMm: number;
  /** Height of the strip along the lower edge that stays free, since clamps hold it. */
  readonly clampsMm?: number | undefined;
  /** By how much less than asked a distance may be, and how far parts may be in each other. */
  readonly withinMm: number;
}

export interface Fault {
  readonly kind: 'overlap' | 'gap' | 'outside' | 'edge' | 'clamps';
  readonly part: string;
  /** The other part, where there is one. */
  readonly other?: string;
  /** How deep, or how wide where it should be wider. */
  readonly mm: number;
}

/**
 * What is wrong with a layout on one piece of stock. It measures from true outline to true outline,
 * lines and arcs as they are, and knows nothing of how they came to lie there.
 */
export const layoutFaults = (
  parts: readonly Lying[],
  ground: Metal,
  asked: Asked,
): readonly Fault[] => {
  const boxes = parts.map(({ outline }) => loopExtents(outline) as Extents);
  const faults = parts.flatMap((part) => groundFaults(part, ground, asked));
  parts.forEach((part, i) => {
    for (let j = i + 1; j < parts.length; j++)
      if (areNear(boxes[i] as Extents, boxes[j] as Extents, asked.gapMm))
        faults.push(...pairFaults(part, parts[j] as Lying, asked));
  });
  return faults;
};

const areNear = (a: Extents, b: Extents, mm: number): boolean =>
  a.minX < b.maxX + mm && b.minX < a.maxX + mm && a.minY < b.maxY + mm && b.minY < a.maxY + mm;

const groundFaults = (part: Lying, ground: Metal, asked: Asked): Fault[] => {
  const out = stickingOut(part, ground);
  if (out > asked.withinMm) return [{ kind: 'outside', part: part.name, mm: out }];
  const mm = leastGap(part, ground, asked.edgeMm);
  return [
    ...(mm < asked.edgeMm - asked.withinMm ? [{ kind: 'edge', part: part.name, mm } as const] : []),
    ...clampFaults(part, ground, asked),
  ];
};

const clampFaults = (part: Lying, ground: Metal, { clampsMm = 0, withinMm }: Asked): Fault[] => {
  const [low, edge] = [part, ground].map(({ outline }) => loopExtents(outline)?.minY) as [
    number,
    number,
  ];
  const mm = low - edge;
  return mm < clampsMm - withinMm ? [{ kind: 'clamps', part: part.name, mm }] : [];
};

const pairFaults = (a: Lying, b: Lying, asked: Asked): Fault[] => {
  const names = { part: a.name, other: b.name };
  const deep = overlapDepth(a, b);
  if (deep > asked.withinMm) return [{ kind: 'overlap', ...names, mm: deep }];
  const mm = leastGap(a, b, asked.gapMm);
  return mm < asked.gapMm - asked.withinMm ? [{ kind: 'gap', ...names, mm }] : [];
};

/** The least distance between the edges of two, as far as it is less than `within`. */
const leastGap = (a: Metal, b: Metal, within: number): number => {
  const loops = ({ outline, holes }: Metal): readonly Loop[] => [outline, ...holes];
  return Math.min(
    within,
    ...loops(a).flatMap((loop) => loops(b).map((other) => loopGap(loop, other, within))),
  );
};
