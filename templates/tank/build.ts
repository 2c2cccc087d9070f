import { advise, figure, hasStop, just, note, orLess, refuse } from '../../src/template.ts';
import type { Built, Finding, Piece } from '../../src/template.ts';
import { tankBaffles } from './baffles.ts';
import { tankEnd } from './end.ts';
import { LEAST_WALL_MM, MOST_FULL_PERCENT } from './fluids.ts';
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
  const notes: Finding[] = [];
  const isFuel = v.fluid !== 'water';
  const least = LEAST_WALL_MM[v.material.family];
  if (isFuel && v.fillLimit > MOST_FULL_PERCENT)
    notes.push(
      advise(
        'over-full',
        ['fillLimit'],
        `fillLimit ${figure(v.fillLimit)} leaves fuel too little room to expand, as 49 CFR 393.67 (road vehicles, after a summary of it) allows ${MOST_FULL_PERCENT} %`,
        [orLess('fillLimit', MOST_FULL_PERCENT, 0)],
      ),
    );
  if (isFuel && v.thicknessMm < least)
    notes.push(
      note(
        'thin-tank-wall',
        `ISO 21487 (fuel tanks of small craft, after a summary of it) asks for walls of ${least} mm or more in this material; these are ${figure(v.thicknessMm)}.`,
      ),
    );
  if (isFuel && v.breather.length === 0)
    notes.push(
      note(
        'no-breather',
        'A tank that cannot breathe is sucked flat: give breather, unless the filler has it.',
      ),
    );
  if (v.pair && v.hand !== 'both' && v.quantity === 1)
    notes.push(
      note(
        'one-of-a-pair',
        'These are the blanks of one tank: hand both makes the other as its mirror image, quantity 2 one just like it.',
      ),
    );
  return notes;
}
