import { hasStop, just, note, refuse } from '../../src/template.ts';
import type { Built, Finding, Piece } from '../../src/template.ts';
import { tankBaffles } from './baffles.ts';
import { tankEnd } from './end.ts';
import { fuelNotes } from './fuel-notes.ts';
import { strayFittings } from './holes.ts';
import { impossibleTank } from './limits.ts';
import { badPlaces } from './places.ts';
import { tankReport } from './report.ts';
import { tankSizes } from './sizes.ts';
import { tankStanding } from './standing.ts';
import type { Tank } from './inputs.ts';
import { tankTop } from './top.ts';
import { tankWrap } from './wrap.ts';

/** All blanks of a tank: wrap, the plates that close its sides, top sheet and baffles. */
export function tank(v: Tank): Built {
  const sizes = tankSizes(v);
  const impossible = [...impossibleTank(v, sizes), ...impossibleLink(v), ...strayFittings(v)];
  if (impossible.length > 0) return { findings: impossible };
  const top = tankTop(v, sizes);
  const baffles = tankBaffles(v, sizes.cavity);
  const findings = [...top.findings, ...baffles.findings, ...badPlaces(v, sizes, baffles.bays)];
  if (hasStop(findings)) return { findings };
  const at = tankStanding(v, sizes, baffles.bays);
  const pieces: Piece[] = [
    { id: 'wrap', part: tankWrap(v, sizes), standing: at.wrap },
    { id: 'end-left', part: tankEnd(v, sizes, 'left'), standing: at.left },
    { id: 'end-right', part: tankEnd(v, sizes, 'right'), standing: at.right },
    { id: 'top', part: top.part, standing: at.top },
    ...baffles.pieces.map((piece, i): Piece => ({
      ...piece,
      standing: at.baffles(i, piece.quantity ?? 1),
    })),
  ];
  return {
    pieces,
    weldAt: SEAMS[v.wrap],
    findings: [...findings, ...tankNotes(v)],
    report: tankReport(v, sizes, baffles, pieces),
  };
}

/** Folds of the wrap that are weld seams instead. */
const SEAMS: Readonly<Record<Tank['wrap'], readonly string[]>> = {
  auto: [],
  whole: [],
  'deep-off': ['wrap A'],
  'ends-off': ['wrap A', 'wrap B'],
};

const impossibleLink = (v: Tank): Finding[] =>
  v.pair && (v.link.length === 0 || v.linkOn === 'top')
    ? [
        refuse(
          'link-missing',
          ['pair', 'link', 'linkOn'],
          v.link.length === 0
            ? 'pair yes shares its level through a pipe low down, and link gives no hole for it'
            : 'pair yes shares its level through a pipe low down, and linkOn top puts its hole high up',
          [just('pair', 'no')],
          'give link, a hole for it, and linkOn another panel than the top',
        ),
      ]
    : [];

/** What the maker should know about a tank that can be made. */
function tankNotes(v: Tank): Finding[] {
  const notes = fuelNotes(v);
  if (v.pair && v.hand !== 'both' && v.quantity === 1)
    notes.push(
      note(
        'one-of-a-pair',
        'These are the blanks of one tank: hand both makes the other as its mirror image, quantity 2 one just like it.',
      ),
    );
  return notes;
}
