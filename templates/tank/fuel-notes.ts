import { advise, figure, note, orLess } from '../../src/template.ts';
import type { Finding } from '../../src/template.ts';
import { LEAST_WALL_MM, MOST_FULL_PERCENT } from './fluids.ts';
import type { Tank } from './inputs.ts';

/** What of a tank matters for fuel, of whatever shape it is. */
type Fuelled = Pick<Tank, 'fluid' | 'fillLimit' | 'material' | 'thicknessMm' | 'breather'>;

/** What the maker should know about a tank that fuel goes into. */
export const fuelNotes = (v: Fuelled): Finding[] => {
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
  return notes;
};
