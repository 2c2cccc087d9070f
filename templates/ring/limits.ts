import {
  cornerInput,
  figure,
  type Finding,
  isOver,
  isPossible,
  isUnder,
  just,
  type Mend,
  orLess,
  orTry,
  refuse,
  within,
  without,
  wholeDown,
} from '../../src/template.ts';
import { heightOf, innermost, rimMm, webMm } from './sizes.ts';
import type { Ring } from './inputs.ts';

export function impossibleRing(v: Ring): Finding[] {
  const inner = innerFindings(v);
  return v.bolts === 0 || inner.length > 0 ? inner : boltFindings(v);
}

function innerFindings(v: Ring): Finding[] {
  const findings: Finding[] = [];
  if (v.shape === 'round' && v.outerHeight !== undefined && v.outerHeight !== v.outer) {
    findings.push(
      refuse(
        'round-height',
        ['outerHeight', 'shape'],
        `outerHeight ${figure(v.outerHeight)} is for a square plate, and shape is round`,
        [without('outerHeight'), just('shape', 'square')],
      ),
    );
  }
  const most = innermost(v) - 2 * webMm(v);
  if (v.inner > 0 && isOver(v.inner, most)) {
    const across = heightOf(v) < v.outer ? 'outerHeight' : 'outer';
    findings.push(
      orTry(
        refuse(
          'inner-too-big',
          ['inner', across],
          `inner ${figure(v.inner)} leaves no rim within ${across} ${figure(innermost(v))}`,
          [most > 0 ? orLess('inner', most) : just('inner', 0)],
        ),
        across,
      ),
    );
  }
  return findings;
}

/**
 * Findings on bolt holes that meet the hole in the middle, each other or the edge. A circle that
 * avoids all three is told, where there is one.
 */
function boltFindings(v: Ring): Finding[] {
  const web = webMm(v);
  const least = v.inner > 0 ? v.inner + v.boltHole + 2 * web : 0;
  const sine = v.bolts > 1 ? Math.sin(Math.PI / v.bolts) : Infinity;
  const apart = (v.boltHole + web) / sine;
  const circles = within('boltCircle', Math.max(least, apart), largestBoltCircle(v));
  const mends = isPossible(circles) ? [circles] : [];
  if (isUnder(v.boltCircle, least)) return [intoInner(v, mends)];
  if (isUnder(v.boltCircle, apart)) return [intoEachOther(v, mends)];
  return isUnder(rimMm(v), web) ? [offTheEdge(v, mends)] : [];
}

const circleText = (v: Ring): string => `boltCircle ${figure(v.boltCircle)}`;

const intoInner = (v: Ring, mends: readonly Mend[]): Finding =>
  orTry(
    refuse(
      'bolt-circle-too-small',
      ['boltCircle', 'inner'],
      `${circleText(v)} with boltHole ${figure(v.boltHole)} runs into inner ${figure(v.inner)}`,
      mends,
    ),
    'inner',
    'boltHole',
    'leastSlot',
  );

function intoEachOther(v: Ring, mends: readonly Mend[]): Finding {
  const share = (v.boltHole + webMm(v)) / v.boltCircle;
  const fewer = share > 1 ? 1 : wholeDown(Math.PI / Math.asin(share));
  const close = refuse(
    'bolts-too-close',
    ['bolts', 'boltHole', 'boltCircle'],
    `bolts ${v.bolts} of boltHole ${figure(v.boltHole)} meet on ${circleText(v)}`,
    [...mends, orLess('bolts', fewer, 0)],
  );
  return orTry(close, 'boltHole', 'leastSlot');
}

const offTheEdge = (v: Ring, mends: readonly Mend[]): Finding =>
  orTry(
    refuse(
      'bolt-circle-too-big',
      ['boltCircle', 'boltHole', 'outer'],
      `${circleText(v)} with boltHole ${figure(v.boltHole)} runs off the plate of outer ${figure(v.outer)}`,
      mends,
      'make the plate larger',
    ),
    'outer',
    'outerHeight',
    'boltHole',
    cornerInput(v),
    'leastSlot',
  );

/**
 * The largest bolt circle. The metal outside the holes shrinks steadily as the circle grows, so the
 * circle is found by halving.
 */
function largestBoltCircle(v: Ring): number {
  let [fits, tooBig] = [0, Math.hypot(v.outer, heightOf(v))];
  for (let i = 0; i < 60; i++) {
    const boltCircle = (fits + tooBig) / 2;
    if (rimMm({ ...v, boltCircle }) >= webMm(v)) fits = boltCircle;
    else tooBig = boltCircle;
  }
  return fits;
}
