import { lacks } from '../model/measured.ts';
import { atLeast, figure } from '../text/figures.ts';
import { loopGap } from '../geometry/gap.ts';
import { isInside } from '../geometry/inside.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import { middle } from '../geometry/vec2.ts';
import { type Finding, warn } from '../model/finding.ts';
import {
  type Check,
  type Checked,
  cutterName,
  type Cutting,
  type Hole,
  labelOf,
  laterNear,
  nameOf,
  onHole,
  onHoles,
} from './check.ts';

/** Metal left between two holes, or between a hole and the edge, that is too narrow. */
export const webTooThin: Check = {
  rule: 'web-too-thin',
  title: 'Little metal is left between two holes, or between a hole and the edge.',
  severities: ['warn'],
  reason:
    'A narrow web between two cuts overheats, melts away or bends out of the sheet while it is cut.',
  source:
    'least web and least edge of the cutter in the shop file; those of the built-in shop are common practice',
  measured: 'the gap between the two, against least web and least edge of the cutter',
  mend: 'Move them apart, or make the hole smaller.',
  run: (checked) => {
    const { cutting } = checked;
    // A drilled hole brings no heat into the sheet.
    const holes = checked.holes.filter((hole) => hole.use?.isDrilled !== true);
    if (cutting === undefined) return [];
    const later = laterNear(holes);
    const webMm = cutting.limitMm(cutting.cutter.leastWeb);
    return holes.flatMap((hole, i) => [
      ...toEdge(checked, cutting, hole),
      // Metal left between the slots of a fold is a land, which has a check of its own.
      ...later(i, webMm).flatMap((other) =>
        hole.fold !== undefined && hole.fold === other.fold ? [] : between(cutting, hole, other),
      ),
    ]);
  },
};

function toEdge({ flat }: Checked, { cutter, limitMm }: Cutting, hole: Hole): Finding[] {
  const least = limitMm(cutter.leastEdge);
  const gap = loopGap(hole.curve, flat.outline, least);
  if (gap <= NOISE_MM || gap >= least - NOISE_MM || !isInside(flat.outline, hole.centre)) return [];
  const message = `${nameOf(hole)} leaves ${figure(gap)} mm of metal to the edge; ${cutterName(cutter)} asks for ${figure(least)} mm. Move it ${atLeast(least - gap)} mm inwards, or make it smaller.`;
  return [{ ...warn(webTooThin, message), ...onHole(hole), ...lacks(gap, least) }];
}

function between({ cutter, limitMm }: Cutting, a: Hole, b: Hole): Finding[] {
  const least = limitMm(cutter.leastWeb);
  const gap = loopGap(a.curve, b.curve, least);
  if (
    gap <= NOISE_MM ||
    gap >= least - NOISE_MM ||
    isInside(a.curve, b.centre) ||
    isInside(b.curve, a.centre)
  )
    return [];
  const message = `${nameOf(a)} and hole ${labelOf(b)} in ${b.panel} leave ${figure(gap)} mm of metal between them; ${cutterName(cutter)} asks for ${figure(least)} mm. Move them ${atLeast(least - gap)} mm apart, or make them smaller.`;
  return [
    {
      ...warn(webTooThin, message),
      ...onHoles(a, b, middle(a.centre, b.centre)),
      ...lacks(gap, least),
    },
  ];
}
