import {
  advise,
  cosDeg,
  figure,
  type Finding,
  isUnder,
  note,
  orLess,
  orMore,
} from '../../src/template.ts';
import { hatOf, isSloped, riseDeg } from './sizes.ts';
import type { Strap } from './inputs.ts';

/** What the user should know about the sizes that were worked out. */
export function strapNotes(v: Strap): Finding[] {
  const findings: Finding[] = [];
  if (v.pullUp > 0) {
    findings.push(
      note(
        'strap-pull-up',
        `The feet stand ${figure(v.pullUp)} mm over their mounting until the bolts pull them down; the slots are ${figure(v.boltHole)} x ${figure(v.boltHole + v.pullUp)}.`,
      ),
    );
  }
  if (v.measure === 'inside') {
    findings.push(
      note(
        'strap-measure',
        'measure changes nothing on a strap: its sizes are those of what it holds.',
      ),
    );
  }
  if (isSloped(v)) findings.push(slopeNote(v));
  // The arc of a bend over a corner of angle c stands off the corner of its inside faces by
  // r (1 / sin(c/2) - 1), along the diagonal, and the sharp corner of the box by rubber / sin(c/2).
  const half = isSloped(v)
    ? cosDeg(Math.max(...Object.values(hatOf(v).turnDeg)) / 2)
    : Math.SQRT1_2;
  const bites = v.insideRadiusMm * (1 - half);
  if (v.over === 'box' && isUnder(v.rubber, bites)) {
    const mends = [orMore('rubber', bites), orLess('radius', v.rubber / (1 - half))];
    findings.push(
      advise(
        'strap-corner',
        ['radius', 'rubber'],
        `A bend of radius ${figure(v.insideRadiusMm)} over rubber ${figure(v.rubber)} sits on the sharp corner of the box before it sits on its faces`,
        mends,
        'round the corner of the box',
      ),
    );
  }
  return findings;
}

/** What the slope makes of the strap, for whoever folds it and tells its ends apart. */
const slopeNote = (v: Strap): Finding => {
  const { turnDeg, sideMm, leanMm } = hatOf(v);
  const across = riseDeg(v);
  const ways = [
    ...(across === 0
      ? []
      : [
          `${figure(Math.abs(across), 1)} degrees from side ${across > 0 ? 'A to side B' : 'B to side A'}`,
        ]),
    ...(v.slopeAlong === 0
      ? []
      : [
          `${figure(Math.abs(v.slopeAlong), 1)} degrees from its ${v.slopeAlong > 0 ? 'left edge to its right' : 'right edge to its left'}, ${figure(Math.abs(leanMm), 1)} mm over its width`,
        ]),
  ];
  return note(
    'strap-slopes',
    `The crown rises ${ways.join(' and ')}: its bends turn ${figure(turnDeg.A, 1)} degrees at side A and ${figure(turnDeg.B, 1)} at side B, and the sides are ${figure(sideMm.A, 1)} and ${figure(sideMm.B, 1)} mm long in the middle.`,
  );
};
