import { parseNumber } from '../text/units.ts';
import { SCALAR } from './accepts.ts';
import { type Field, type FieldReading, makeOptionalField, type Said } from './field.ts';

/** Litres for each 100 km, or for each hour. */
export interface Consumption {
  readonly litres: number;
  readonly per: '100 km' | 'hour';
}

const ALLOWED =
  'litres for 100 km (8.5, or 8.5 l/100km) or for an hour (4 l/h), more than 0 and at most 1000';

/** Consumption of fuel; may be left out. A bare number is litres for 100 km. */
export const optionalConsumption = (
  options: Said & { readonly otherwise: string },
): Field<Consumption | undefined> =>
  makeOptionalField(
    { kind: 'text', allowed: ALLOWED, example: '8.5 l/100km', ...options },
    SCALAR,
    (given) => readConsumption(String(given)),
  );

/** Reads `8.5`, `8.5 l/100km` or `4 l/h`, in any case and spacing. */
export function readConsumption(given: string): FieldReading<Consumption> {
  const [, figure = '', unit = ''] = /^\s*([^\sa-z/]+)\s*(.*?)\s*$/i.exec(given) ?? [];
  const word = unit.toLowerCase().replaceAll(' ', '');
  const per = word === '' || word === 'l/100km' ? '100 km' : word === 'l/h' ? 'hour' : undefined;
  if (per === undefined) return { ok: false, mend: 'write the unit as l/100km or l/h' };
  const litres = parseNumber(figure);
  if (!litres.ok) return { ok: false, mend: litres.reason };
  return litres.value > 0 && litres.value <= 1000
    ? { ok: true, value: { litres: litres.value, per } }
    : { ok: false };
}
