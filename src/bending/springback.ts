import type { Basis, Material } from '../model/material.ts';

/** How far a bend must be driven so that the wanted angle stays. */
export interface Springback {
  /** Bend angle that stays, divided by the bend angle at the stop; 1 means no springback. */
  readonly factor: number;
  readonly basis: Basis;
  readonly source: string;
}

const TABLE_SOURCE =
  'Tabellenbuch Metall (Verlag Europa-Lehrmittel), springback factor kR; its column heads from memory';

/** Inside radius over thickness at which the table has a column. */
const RATIOS = [1, 1.6, 2.5, 4, 6.3, 10, 16, 25, 40, 63, 100] as const;

/** Rows of the table, as far as they are printed. */
const ROWS = {
  DC01: [0.99, 0.99, 0.99, 0.97, 0.96, 0.96, 0.93, 0.9, 0.85, 0.77, 0.66],
  'X12CrNi18-8': [0.99, 0.98, 0.97, 0.95, 0.93, 0.89, 0.84, 0.76, 0.63],
  'EN AW-Al99,0': [0.99, 0.99, 0.99, 0.99, 0.98, 0.98, 0.97, 0.97, 0.96, 0.95, 0.93],
  'EN AW-AlSiMgMn': [0.98, 0.98, 0.97, 0.96, 0.95, 0.93, 0.9, 0.86, 0.82, 0.76, 0.72],
} as const satisfies Readonly<Record<string, readonly number[]>>;

export type SpringbackRow = keyof typeof ROWS;

/**
 * Sheet that a row stands for; the stainless one is the nearest of the table, not the same grade.
 */
const ROW_OF: Readonly<Record<string, SpringbackRow>> = {
  dc01: 'DC01',
  dx51d: 'DC01',
  '1.4301': 'X12CrNi18-8',
  '1050a-h14': 'EN AW-Al99,0',
  '6082-t6': 'EN AW-AlSiMgMn',
};

/**
 * kR by a row of the table, interpolated between its columns in proportion to the logarithm of r /
 * t, as the columns are spaced. Before the first column and after the last their own figures hold.
 */
export const tabledFactor = (
  row: SpringbackRow,
  insideRadiusMm: number,
  thicknessMm: number,
): number => {
  const figures: readonly number[] = ROWS[row];
  const ratio = insideRadiusMm / thicknessMm;
  const next = RATIOS.findIndex((r, i) => i < figures.length && ratio <= r);
  if (next === 0) return figures[0] as number;
  if (next === -1) return figures.at(-1) as number;
  const [low, high] = [RATIOS[next - 1] as number, RATIOS[next] as number];
  const share = Math.log(ratio / low) / Math.log(high / low);
  return (figures[next - 1] as number) * (1 - share) + (figures[next] as number) * share;
};

/**
 * Elastic springback of a wide bend: Ri / Rf = 4 x^3 - 3 x + 1 with x = Ri Y / (E t); the bend
 * angles before and after are inversely as the middle radii (Kalpakjian and Schmid, Manufacturing
 * Processes for Engineering Materials; from memory). `insideRadiusMm` is the radius of the tool.
 * The formula holds while x is at most 1/2, where the bend would spring flat.
 */
export const elasticSpringback = (
  { yieldMpa, modulusMpa }: { readonly yieldMpa: number; readonly modulusMpa: number },
  insideRadiusMm: number,
  thicknessMm: number,
): { readonly radiusRatio: number; readonly radiusAfterMm: number; readonly factor: number } => {
  const x = Math.min(0.5, (insideRadiusMm * yieldMpa) / (modulusMpa * thicknessMm));
  const radiusRatio = 4 * x ** 3 - 3 * x + 1;
  const radiusAfterMm = radiusRatio === 0 ? Infinity : insideRadiusMm / radiusRatio;
  const factor =
    insideRadiusMm === 0
      ? 1
      : (insideRadiusMm + thicknessMm / 2) / (radiusAfterMm + thicknessMm / 2);
  return { radiusRatio, radiusAfterMm, factor };
};

/**
 * Springback from the table where it lists the sheet, otherwise from the yield strength that the
 * sheet's standard guarantees.
 */
export const springbackOf = (
  material: Material,
  insideRadiusMm: number,
  thicknessMm: number,
): Springback => {
  const row = ROW_OF[material.id];
  if (row !== undefined)
    return {
      factor: tabledFactor(row, insideRadiusMm, thicknessMm),
      basis: 'published',
      source: TABLE_SOURCE,
    };
  const strength = {
    yieldMpa: material.yieldMpa.value ?? material.tensileMpa.value[0],
    modulusMpa: material.modulusMpa.value,
  };
  const { factor } = elasticSpringback(strength, insideRadiusMm, thicknessMm);
  return {
    factor,
    basis: 'from memory',
    source:
      'elastic springback by the yield strength, the least that the standard of the sheet guarantees',
  };
};

/**
 * The bend angle to stop at so that `angleDeg` stays (alpha1 = alpha2 / kR, Tabellenbuch Metall),
 * degrees.
 */
export const stopAtDeg = (angleDeg: number, { factor }: Pick<Springback, 'factor'>): number =>
  angleDeg / factor;

/**
 * Inside radius of the tool that leaves a given radius on the part: kR (r2 + t/2) - t/2
 * (Tabellenbuch Metall), mm.
 */
export const toolRadiusMm = (
  insideRadiusMm: number,
  thicknessMm: number,
  { factor }: Springback,
): number => factor * (insideRadiusMm + thicknessMm / 2) - thicknessMm / 2;

/** Inside radius of the former that leaves a given radius on the part of a sheet, mm. */
export const formerRadiusMm = (
  material: Material,
  insideRadiusMm: number,
  thicknessMm: number,
): number =>
  toolRadiusMm(insideRadiusMm, thicknessMm, springbackOf(material, insideRadiusMm, thicknessMm));
