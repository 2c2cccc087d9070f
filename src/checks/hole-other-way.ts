import { lacks } from '../model/measured.ts';
import { figure } from '../text/figures.ts';
import { pointGap } from '../geometry/gap.ts';
import { isInside } from '../geometry/inside.ts';
import { moveLoop } from '../geometry/motion2.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import { type Finding, warn } from '../model/finding.ts';
import { type Check, type Checked, type Hole, nameOf, onHole } from './check.ts';

/**
 * The usual width of metal between a hole and an edge is the width of the hole, but no more than
 * this is asked for, mm.
 */
const ENOUGH_MM = 20;

/** Two figures that may have been written in the wrong order. */
export const holeOtherWay: Check = {
  rule: 'hole-other-way',
  title: 'The two figures of a hole may have been written in the wrong order.',
  severities: ['warn'],
  reason:
    'Two figures without names are easily written in the wrong order, and the hole then misses its bolt.',
  source:
    'common practice: the middle of a bolt hole lies 1.5 of its widths or more from an edge, which leaves its width of metal; 20 mm will do beside a large hole',
  measured: 'from its middle to an edge, in both orders',
  mend: 'Exchange them, or say what each is measured from.',
  run: (checked) =>
    checked.holes.flatMap((hole, i) => examine(checked, hole, checked.flat.cutouts[i]?.otherWay)),
};

function examine({ flat }: Checked, hole: Hole, otherWay: Vec2 | undefined): Finding[] {
  const panel = flat.panels.find(({ id }) => id === hole.panel);
  if (otherWay === undefined || panel === undefined || !isInside(flat.outline, hole.centre))
    return [];
  const { minX, minY, maxX, maxY } = hole.box;
  const width = Math.min(maxX - minX, maxY - minY);
  const usual = width / 2 + Math.min(width, ENOUGH_MM);
  const edge = pointGap(hole.centre, flat.outline);
  const region = moveLoop(panel.placement, panel.region);
  if (edge >= usual || !isInside(region, otherWay) || pointGap(otherWay, region) < usual) return [];
  const message =
    `The middle of ${lowerFirst(nameOf(hole))} lies ${figure(edge)} mm from an edge, nearer than usual (${figure(usual)}), and in the other order its two figures would put it well on the metal. ` +
    'If the order is right, say what each is measured from, such as from fold 10, from left 35, M8 (blankwright describe names what they are in this family).';
  return [{ ...warn(holeOtherWay, message), ...onHole(hole), ...lacks(edge, usual) }];
}

const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);
