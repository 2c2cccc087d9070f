import { figure } from '../text/figures.ts';
import type { Extents } from '../geometry/extents.ts';
import { type Finding, note, warn } from '../model/finding.ts';
import { printable } from '../dxf/read/printable.ts';
import type { DxfDrawing } from './drawing.ts';
import { UNSTATED_UNITS, type UnstatedUnit } from '../dxf/read/units.ts';

/**
 * Most parts that are cut from sheet have a size between these, mm. The figures are a guess, and
 * only raise a question.
 */
const USUAL = { from: 20, to: 3000 };
/** Outside these sizes, mm, a unit is more likely to be wrong than right. */
const ODD = { below: 10, above: 6000 };

/** Whether the unit of a file is stated, and whether it is likely. */
export const unitFindings = (
  { unit, unitFrom, unknown, system }: DxfDrawing,
  extents: Extents,
): Finding[] => {
  const [width, height] = [extents.maxX - extents.minX, extents.maxY - extents.minY];
  const size = (mm: number): string =>
    `${figure((width * mm) / unit.mm)} x ${figure((height * mm) / unit.mm)} mm`;
  const findings: Finding[] = [];
  if (unitFrom === 'assumed') {
    findings.push(
      warn(
        'no-unit',
        `The file states ${unknown === undefined ? 'no unit' : `a unit that is not known ('${printable(unknown)}')`}: in millimetres it is ${size(1)}, in inches ${size(UNSTATED_UNITS.inch.mm)}. Tell whoever cuts it which, or save it with its unit; --units reads it in another one.`,
      ),
    );
  }
  if (unitFrom === 'file' && unit.name === 'inches' && system === 'metric') {
    findings.push(
      note(
        'probable-unit-mistake',
        `The file states inches, but was begun as a metric drawing. In inches it is ${size(unit.mm)}; in millimetres it would be ${size(1)}.`,
      ),
    );
  }
  const largest = Math.max(width, height);
  if (largest >= ODD.below && largest <= ODD.above) return findings;
  const likely = (Object.keys(UNSTATED_UNITS) as UnstatedUnit[]).filter((name) => {
    const other = (largest * UNSTATED_UNITS[name].mm) / unit.mm;
    return UNSTATED_UNITS[name].mm !== unit.mm && other >= USUAL.from && other <= USUAL.to;
  });
  const instead = likely
    .map((name) => `${size(UNSTATED_UNITS[name].mm)} in ${UNSTATED_UNITS[name].name}`)
    .join(', ');
  const message = `In ${unit.name} the drawing is ${size(unit.mm)}, which is ${largest < ODD.below ? 'smaller' : 'larger'} than most parts${instead === '' ? '' : `; it would be ${instead}`}. Check the unit that it was saved in.`;
  return [...findings, warn('probable-unit-mistake', message)];
};

/** Whether a drawing lies so far away from 0 that it had to be brought near it. */
export const farFindings = ({ origin: [x, y] }: DxfDrawing): Finding[] => {
  if (x === 0 && y === 0) return [];
  return [
    warn(
      'far-from-0',
      `The drawing lies ${figure(Math.hypot(x, y) / 1e6)} km from 0: many programs do not find it, or lose the last figures of its lengths. Move it to 0, or let --mend do it.`,
    ),
  ];
};
