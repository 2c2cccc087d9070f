import { figure } from './figures.ts';
import type { Printed } from './printed.ts';
import { MM_PER_INCH } from './units.ts';

/** Areas that a family tells of, in mm². */
const AREAS_MM2: Readonly<Record<string, number>> = { 'mm²': 1, mm2: 1, 'cm²': 100, 'm²': 1e6 };

/**
 * A figure that has its unit beside it, as it is printed, with the unit: lengths and areas in that of
 * the paper; masses in kg, volumes in litres and whatever else as they are.
 */
export const unitFigure = (
  value: number,
  unit: string,
  { unit: printed, machine, word }: Printed,
): readonly [figure: string, unit: string] => {
  if (printed === 'mm') return [figure(value), unit];
  if (unit === 'mm') return [machine(value), word];
  const mm2 = AREAS_MM2[unit];
  return mm2 === undefined
    ? [figure(value), unit]
    : [figure((value * mm2) / MM_PER_INCH ** 2), 'in²'];
};
