import type { Report } from '../../src/template.ts';
import { FLUIDS } from '../tank/fluids.ts';
import { loadOf } from './load.ts';
import { depthAt, railBoltMm, railEnds, railFlange, strapPlaces } from './sizes.ts';
import type { Cradle } from './inputs.ts';

/** What hangs in the cradle, and where its bolts go. */
export const cradleReport = (v: Cradle): Report => {
  const { litres, fluidKg, fullKg, alongMm, strapKg } = loadOf(v);
  const { densityKgM3, densitySource } = FLUIDS[v.fluid];
  const [from, to] = railEnds(v);
  const [left, right] = strapPlaces(v);
  const away = railBoltMm(v) - v.boltCentres;
  const rail = railBoltMm(v);
  return {
    figures: [
      {
        name: 'volume by the outside',
        value: litres,
        unit: 'l',
        about: 'Brim-full, which is a little more than the tank holds.',
      },
      {
        name: 'mass of the fluid',
        value: fluidKg,
        unit: 'kg',
        about: `${v.fluid} of ${densityKgM3} kg/m3 (${densitySource}).`,
      },
      {
        name: 'mass of the tank full',
        value: fullKg,
        unit: 'kg',
        about:
          v.emptyMass === undefined
            ? 'Without the tank itself, whose emptyMass was not given.'
            : 'With emptyMass. Standing still: a crash asks for many times as much.',
      },
      { name: 'its middle, from the left end', value: alongMm, unit: 'mm' },
      { name: 'of it on the left strap', value: strapKg[0], unit: 'kg' },
      { name: 'of it on the right strap', value: strapKg[1], unit: 'kg' },
      {
        name: 'rubber under the left strap',
        value: rubberMm(v, left),
        unit: 'mm',
        about: `Strip of ${v.strapWidth} mm, from the top of the tank down, across and up.`,
      },
      { name: 'rubber under the right strap', value: rubberMm(v, right), unit: 'mm' },
      { name: 'length of the rail', value: to - from, unit: 'mm' },
      {
        name: 'width of its flange',
        value: railFlange(v).wideMm,
        unit: 'mm',
        about: 'Outside; the feet of the straps end where its bend begins.',
      },
    ],
    tables: [
      {
        title: 'Bolts, from the left end of the tank and from its side away from the rail',
        columns: [
          { name: 'along', unit: 'mm' },
          { name: 'across', unit: 'mm' },
          { name: 'hole', unit: 'mm' },
          { name: 'strap', unit: '' },
          { name: 'rail', unit: '' },
          { name: 'chassis', unit: '' },
        ],
        // What each bolt goes through, 1 for yes.
        rows: [
          [left, away, v.boltHole, 1, 0, 1],
          [left, rail, v.boltHole, 1, 1, 0],
          [right, away, v.boltHole, 2, 0, 1],
          [right, rail, v.boltHole, 2, 1, 0],
          [v.chassisAt, rail, v.chassisHole, 0, 1, 1],
          [v.chassisAt + v.chassisPitch, rail, v.chassisHole, 0, 1, 1],
        ],
      },
    ],
  };
};

/** Rubber for a strap: down either side of the tank and along its floor. */
const rubberMm = (v: Cradle, along: number): number => {
  const [away, near] = [0, v.width].map((across) => depthAt(v, along, across)) as [number, number];
  return away + near + Math.hypot(v.width, near - away);
};
