import { lacks } from '../model/measured.ts';
import { atLeast, figure } from '../text/figures.ts';
import { loopExtents } from '../geometry/extents.ts';
import { moveLoop } from '../geometry/motion2.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import { distance, dot, sub, unit } from '../geometry/vec2.ts';
import { type Finding, warn } from '../model/finding.ts';
import type { FlatBend } from '../model/flat.ts';
import type { Check, Hole } from './check.ts';

const THICKNESSES = 2;

/** Metal left between the slots of a fold that is too short to hold while the part is folded. */
export const slotLandWeak: Check = {
  rule: 'slot-land-weak',
  title: 'The lands between the slots of a fold are short.',
  severities: ['warn'],
  reason:
    'The lands carry the flange while it is folded by hand and until it is welded: short ones twist off or crack.',
  source: 'common practice: 2 thicknesses, and never less than the least web of the cutter',
  measured: 'the shortest land against two thicknesses and the least web of the cutter',
  mend: 'Set slotLand to what the message names.',
  run: ({ flat, cutting, holes }) => {
    const least = Math.max(
      THICKNESSES * flat.thicknessMm,
      cutting?.limitMm(cutting.cutter.leastWeb) ?? 0,
    );
    return flat.bends.flatMap((bend) =>
      examine(
        bend,
        holes.filter((hole) => hole.fold === bend.id),
        least,
      ),
    );
  },
};

function examine(bend: FlatBend, row: readonly Hole[], least: number): Finding[] {
  const shortest = Math.min(...landsOf(bend, row));
  const [first] = row;
  if (first === undefined || shortest >= least - NOISE_MM) return [];
  const message = `The lands beside the slots of fold ${bend.id} are ${figure(shortest)} mm at the shortest; it takes ${figure(least)} mm to hold while it is folded. Set slotLand to ${atLeast(least)} or more.`;
  return [
    {
      ...warn(slotLandWeak, message),
      inputs: ['slotLand'],
      at: first.centre,
      ...lacks(shortest, least),
    },
  ];
}

/** Lengths of the metal left along the fold line, from its beginning to its end, mm. */
function landsOf({ centreLine: [from, to] }: FlatBend, row: readonly Hole[]): number[] {
  const [c, s] = unit(sub(to, from));
  // The slots are turned so that x runs along the fold, from its beginning.
  const boxes = row.flatMap(
    ({ curve }) => loopExtents(moveLoop({ c, s: -s, x: -dot(from, [c, s]), y: 0 }, curve)) ?? [],
  );
  const slots = boxes.toSorted((a, b) => a.minX - b.minX);
  return [...slots.map((slot) => slot.minX), distance(from, to)].map(
    (end, i) => end - (slots[i - 1]?.maxX ?? 0),
  );
}
