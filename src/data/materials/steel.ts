import type { Material } from '../../model/material.ts';
import { din6935Radii, STEEL_MODULUS, stock } from './sources.ts';
import { fromMemory, practice, published } from '../sourced.ts';

const DENSITY = practice(
  7850,
  'trade figure of 7.85 kg per m2 and mm, within the range of EN 1991-1-1',
);
const EN_10025 = 'BS EN 10025-2, table 7 (reprinted)';

/**
 * EN 10025-2 asks for 470 MPa in S355 from 3 mm on, but for 510 under 3 mm: thinner sheet belongs
 * to the next stronger class of DIN 6935.
 */
const S355_RADII: Material['leastRadius'] = {
  basis: 'published',
  source:
    'DIN 6935, tensile strength over 490 to 640 MPa under 3 mm, over 390 to 490 MPa from there on',
  value: [
    ...din6935Radii('over 490 to 640')
      .value.filter((c) => c.upToMm <= 3)
      .map((c) => ({ ...c, upToMm: Math.min(c.upToMm, 2.999) })),
    ...din6935Radii('over 390 to 490').value.filter((c) => c.upToMm >= 3),
  ],
};

const structural = (
  grade: string,
  yieldMpa: number,
  tensile: readonly [number, number],
  elongationPct: number,
  radii: Material['leastRadius'],
  remark: string,
): Material => ({
  id: grade.toLowerCase(),
  name: `${grade}JR`,
  aliases: [`${grade}JR`, `${grade}JR+AR`],
  family: 'steel',
  densityKgM3: DENSITY,
  yieldMpa: published(yieldMpa, EN_10025),
  tensileMpa: published(tensile, `${EN_10025}, from 3 mm on`),
  elongationPct: fromMemory(
    elongationPct,
    'EN 10025-2, over 80 mm, sheet over 1.5 to 2 mm, from memory',
  ),
  modulusMpa: STEEL_MODULUS,
  stockThicknessesMm: stock(1.5, 2, 2.5, 3, 4, 5, 6, 8, 10),
  leastRadius: radii,
  gaugeScale: 'steel',
  remark,
});

/** Plain steel sheet. */
export const STEELS: readonly Material[] = [
  {
    id: 'dc01',
    name: 'DC01',
    aliases: ['1.0330', 'crca', 'cr4'],
    family: 'steel',
    densityKgM3: DENSITY,
    yieldMpa: fromMemory(null, 'EN 10130 gives no least yield, only a greatest of 280'),
    tensileMpa: published([270, 410], 'EN 10130, quoted by a strip stockholder'),
    elongationPct: fromMemory(28, 'EN 10130, over 80 mm, from memory'),
    modulusMpa: STEEL_MODULUS,
    stockThicknessesMm: stock(0.5, 0.6, 0.7, 0.75, 0.8, 0.9, 1, 1.2, 1.25, 1.5, 2, 2.5, 3),
    leastRadius: din6935Radii('up to 390'),
    gaugeScale: 'steel',
    remark: 'cold-rolled sheet with a clean face: trays, covers, ducts; rusts at once when bare',
  },
  structural(
    'S235',
    235,
    [360, 510],
    19,
    din6935Radii('up to 390'),
    'plain structural sheet and plate: brackets that are not highly loaded',
  ),
  structural(
    'S275',
    275,
    [410, 560],
    17,
    din6935Radii('over 390 to 490'),
    'structural sheet and plate, a little stronger than S235',
  ),
  structural(
    'S355',
    355,
    [470, 630],
    16,
    S355_RADII,
    'strong structural plate: larger bend radii, more springback',
  ),
];

/** Steel sheet with a zinc coating. */
export const GALVANISED: readonly Material[] = [
  {
    id: 'dx51d',
    name: 'DX51D+Z275',
    aliases: ['dx51d+z', 'dx51d+z275', 'galvanised', 'galvanized', 'galv'],
    family: 'galvanised',
    densityKgM3: DENSITY,
    yieldMpa: fromMemory(null, 'EN 10346 guarantees no yield; 140 to 300 is indicative'),
    tensileMpa: fromMemory([270, 500], 'EN 10346, from memory'),
    elongationPct: fromMemory(22, 'EN 10346, over 80 mm, from memory'),
    modulusMpa: STEEL_MODULUS,
    stockThicknessesMm: stock(0.5, 0.6, 0.75, 0.8, 1, 1.25, 1.5, 2, 2.5, 3),
    leastRadius: din6935Radii('up to 390', 'common practice'),
    gaugeScale: 'galvanised',
    remark:
      'zinc-coated sheet: keeps from rusting where it is not cut, gives off harmful fume when welded',
  },
];
