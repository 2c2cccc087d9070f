import { M3_PER_MM3 } from '../../src/template.ts';
import type { Piece, ReportFigure } from '../../src/template.ts';
import { FLUIDS } from './fluids.ts';
import type { Tank } from './inputs.ts';
import { blankMm3 } from './metal.ts';

/** What a tank weighs, kg, and how that is told, of whatever shape it is. */
export interface TankMasses {
  readonly fullKg: number;
  readonly figures: readonly ReportFigure[];
}

export const tankMasses = (
  v: Pick<Tank, 'fluid' | 'material' | 'rule'>,
  usableL: number,
  pieces: readonly Piece[],
): TankMasses => {
  const fluid = FLUIDS[v.fluid];
  const sheetKg =
    pieces.reduce((sum, p) => sum + blankMm3(p.part, v.rule) * (p.quantity ?? 1), 0) *
    v.material.densityKgM3.value *
    M3_PER_MM3;
  const fullKg = sheetKg + (usableL * fluid.densityKgM3) / 1000;
  return {
    fullKg,
    figures: [
      {
        name: 'empty mass',
        value: sheetKg,
        unit: 'kg',
        about: 'Mass of the blanks of one tank, without fittings and welds.',
      },
      {
        name: 'full mass',
        value: fullKg,
        unit: 'kg',
        about: `With ${v.fluid} of ${fluid.densityKgM3} kg/m3 up to the fill limit (${fluid.densitySource}).`,
      },
    ],
  };
};
