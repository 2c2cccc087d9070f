import type { Motion2 } from '../geometry/motion2.ts';
import { movePoint } from '../geometry/motion2.ts';
import { overY, ownMirrors } from '../geometry/own-mirror.ts';
import { SAME_IN_FILE_MM } from '../geometry/tolerance.ts';
import { distance, type Vec2 } from '../geometry/vec2.ts';
import { note } from '../model/finding.ts';
import type { FlatBend } from '../model/flat.ts';
import { type Check, type Checked, type Hole } from './check.ts';

/** Left and right parts whose blanks cannot be told apart. */
export const handsShareBlank: Check = {
  rule: 'hands-share-blank',
  title: 'Left and right are cut from the same blank.',
  severities: ['note'],
  reason:
    'Two hands that are cut from one blank are told apart by their folding alone: a batch easily ends as one hand.',
  source: 'geometry',
  measured: 'whether outline and holes are their own mirror image',
  mend: 'Mark the hand on each blank before folding.',
  run: (checked) => {
    if (!checked.isMirrored) return [];
    const motions = ownMirrors(checked.flat.outline, SAME_IN_FILE_MM).filter((motion) =>
      checked.holes.every((hole) => checked.holes.some((other) => isSameHole(motion, hole, other))),
    );
    if (motions.length === 0) return [];
    return [
      note(
        handsShareBlank,
        motions.some((motion) => bendsMatch(checked, motion)) ? ALIKE : FOLDED_APART,
      ),
    ];
  },
};

const ALIKE =
  'The left and the right part are the same: the part is its own mirror image. Ask for hand left, and for the quantity of both together.';
const FOLDED_APART =
  'The left and the right part are cut from one blank and differ only in where and which way it is folded: mark the hand on each blank before folding.';

const mirrored = (motion: Motion2, p: Vec2): Vec2 => movePoint(motion, overY(p));

const isSameHole = (motion: Motion2, hole: Hole, other: Hole): boolean =>
  hole.diameterMm === other.diameterMm &&
  hole.curve.length === other.curve.length &&
  distance(mirrored(motion, hole.centre), other.centre) <= SAME_IN_FILE_MM &&
  (hole.diameterMm !== undefined ||
    hole.curve.every((v) =>
      other.curve.some(
        (w) => distance(mirrored(motion, [v.x, v.y]), [w.x, w.y]) <= SAME_IN_FILE_MM,
      ),
    ));

/** Whether the mirrored part has the same bends at the same places. */
const bendsMatch = ({ flat: { bends } }: Checked, motion: Motion2): boolean =>
  bends.every((bend) => bends.some((other) => isSameBend(motion, bend, other)));

const isSameBend = (motion: Motion2, a: FlatBend, b: FlatBend): boolean => {
  if (
    a.direction !== b.direction ||
    a.angleDeg !== b.angleDeg ||
    a.insideRadiusMm !== b.insideRadiusMm
  )
    return false;
  const [from, to] = a.centreLine.map((p) => mirrored(motion, p)) as [Vec2, Vec2];
  const lies = (p: Vec2, q: Vec2): boolean =>
    distance(from, p) <= SAME_IN_FILE_MM && distance(to, q) <= SAME_IN_FILE_MM;
  return lies(b.centreLine[0], b.centreLine[1]) || lies(b.centreLine[1], b.centreLine[0]);
};
