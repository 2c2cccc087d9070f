import { advise, figure, type Finding, isUnder, note, orLess, orMore } from '../../src/template.ts';
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
  // The arc of the bend stands off the corner of its inside faces by r (sqrt 2 - 1), along the
  // diagonal, and the sharp corner of the box by rubber x sqrt 2.
  const bites = v.insideRadiusMm * (1 - Math.SQRT1_2);
  if (v.over === 'box' && isUnder(v.rubber, bites)) {
    const mends = [orMore('rubber', bites), orLess('radius', v.rubber / (1 - Math.SQRT1_2))];
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
