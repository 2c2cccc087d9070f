import { MM_PER_INCH, parseLength, type ParsedNumber } from '../text/units.ts';
import type { GaugeScale, Material } from '../model/material.ts';

/**
 * Sheet gauges in inches. Steel: Manufacturers' Standard Gauge (weight over 41.82); galvanised: the
 * same and 0.0037 in of zinc, as tabled; aluminium: Brown and Sharpe.
 *
 * Sources: Machinery's Handbook, table of sheet gauges, and stockholders' gauge charts that agree
 * with it. Its 10 gauge steel is misprinted there as 0.1395; the weight rule and its own mm value
 * give 0.1345.
 */
const GAUGES: readonly (readonly [
  gauge: number,
  steel: number | null,
  galvanised: number | null,
  aluminium: number | null,
])[] = [
  [7, 0.1793, null, 0.1443],
  [8, 0.1644, null, 0.1285],
  [9, 0.1495, 0.1532, 0.1144],
  [10, 0.1345, 0.1382, 0.1019],
  [11, 0.1196, 0.1233, 0.0907],
  [12, 0.1046, 0.1084, 0.0808],
  [13, 0.0897, 0.0934, 0.072],
  [14, 0.0747, 0.0785, 0.0641],
  [15, 0.0673, 0.071, 0.0571],
  [16, 0.0598, 0.0635, 0.0508],
  [17, 0.0538, 0.0575, 0.0453],
  [18, 0.0478, 0.0516, 0.0403],
  [19, 0.0418, 0.0456, 0.0359],
  [20, 0.0359, 0.0396, 0.032],
  [21, 0.0329, 0.0366, 0.0285],
  [22, 0.0299, 0.0336, 0.0253],
  [23, 0.0269, 0.0306, 0.0226],
  [24, 0.0239, 0.0276, 0.0201],
  [26, 0.0179, 0.0217, 0.0159],
  [28, 0.0149, 0.0187, 0.0126],
];

const COLUMN: Readonly<Record<GaugeScale, 1 | 2 | 3>> = { steel: 1, galvanised: 2, aluminium: 3 };

/** Thickness of a gauge on a scale, mm; `undefined` for a gauge that is not on it. */
export const gaugeThicknessMm = (gauge: number, scale: GaugeScale): number | undefined => {
  const inches = GAUGES.find(([g]) => g === gauge)?.[COLUMN[scale]];
  return inches === null || inches === undefined ? undefined : inches * MM_PER_INCH;
};

/**
 * A thickness as it is typed: any length, or a gauge such as `16ga`, whose meaning depends on the
 * sheet.
 */
export const parseThickness = (
  text: string,
  { name, gaugeScale }: Pick<Material, 'name' | 'gaugeScale'>,
): ParsedNumber => {
  const gauge = /^\s*(\d{1,2})\s*(?:ga|gauge|swg|bg)\.?\s*$/i.exec(text);
  if (gauge === null) return parseLength(text);
  if (/swg|bg/i.test(text))
    return { ok: false, reason: 'SWG and BG are other scales: give the thickness in mm or inches' };
  if (gaugeScale === null)
    return {
      ok: false,
      reason: `${name} has no gauge scale that all agree on: give the thickness in mm or inches`,
    };
  const value = gaugeThicknessMm(Number(gauge[1]), gaugeScale);
  if (value !== undefined) return { ok: true, value };
  const known = GAUGES.filter((row) => row[COLUMN[gaugeScale]] !== null).map(([g]) => g);
  return { ok: false, reason: `the ${gaugeScale} gauges known are ${known.join(', ')}` };
};
