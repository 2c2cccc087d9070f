import type { Material } from '../../model/material.ts';
import { ALUMINIUM_MODULUS, factors, stock } from './sources.ts';
import { fromMemory, published } from '../sourced.ts';

const STOCK = stock(0.8, 1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6);
const EN_485 = 'EN 485-2, quoted by a stockholder';

/** Note on radii where the published table lacks some for steep bends: see `factors`. */
const NEXT_CLASS = 'over 120 degrees that of the next class, common practice';

/** Aluminium sheet. Bend factors are for bends across the rolling direction. */
export const ALUMINIUMS: readonly Material[] = [
  {
    id: '1050a-h14',
    name: 'EN AW-1050A H14',
    aliases: ['1050-h14'],
    family: 'aluminium',
    densityKgM3: published(2710, 'BS EN 485-2:2008, quoted by a stockholder'),
    yieldMpa: published(85, 'BS EN 485-2:2008, quoted by a stockholder'),
    tensileMpa: published([105, 145], 'BS EN 485-2:2008, quoted by a stockholder'),
    modulusMpa: published(71_000, 'stockholder data sheet, 1050A H14'),
    stockThicknessesMm: STOCK,
    leastRadius: factors(
      'stockholder bending guide, 1050A H14',
      'published',
      [1.5, 0.5, 1],
      [3, 1, 1],
      [6, 1.5, 1.5],
      [12.5, 2.5],
    ),
    gaugeScale: 'aluminium',
    remark: 'soft and easy to fold and weld: covers, ducts; dents easily',
  },
  {
    id: '5251-h22',
    name: 'EN AW-5251 H22',
    aliases: ['ns4-h22'],
    family: 'aluminium',
    densityKgM3: fromMemory(2690),
    yieldMpa: fromMemory(120, 'from memory; a stockholder prints 130'),
    tensileMpa: fromMemory([190, 230]),
    modulusMpa: ALUMINIUM_MODULUS,
    stockThicknessesMm: STOCK,
    leastRadius: factors(
      'factors of 5052 H22/H32 in EN 485-2: none of 5251 was found',
      'common practice',
      [0.5, 0.5],
      [1.5, 1],
      [3, 1.5],
      [6, 1.5],
      [12.5, 2.5],
    ),
    gaugeScale: 'aluminium',
    remark: 'the usual panel sheet: folds well, stands weather',
  },
  {
    id: '5754-h22',
    name: 'EN AW-5754 H22',
    aliases: [],
    family: 'aluminium',
    densityKgM3: fromMemory(2670),
    yieldMpa: published(130, EN_485),
    tensileMpa: published([220, 270], EN_485),
    modulusMpa: ALUMINIUM_MODULUS,
    stockThicknessesMm: STOCK,
    leastRadius: factors(
      `${EN_485}; over 3 mm and ${NEXT_CLASS}`,
      'published',
      [0.5, 0.5, 1.5],
      [1.5, 1, 1.5],
      [3, 1.5, 2],
      [6, 1.5],
      [12.5, 2.5],
    ),
    gaugeScale: 'aluminium',
    remark: 'strong sheet that welds well: tanks, floors, brackets',
  },
  {
    id: '5754-h111',
    name: 'EN AW-5754 H111',
    aliases: ['5754-o'],
    family: 'aluminium',
    densityKgM3: fromMemory(2670),
    yieldMpa: published(80, EN_485),
    tensileMpa: published([190, 240], EN_485),
    modulusMpa: ALUMINIUM_MODULUS,
    stockThicknessesMm: STOCK,
    leastRadius: factors(
      EN_485,
      'published',
      [0.5, 0, 0.5],
      [1.5, 0.5, 0.5],
      [3, 1, 1],
      [6, 1, 1],
      [12.5, 2],
    ),
    gaugeScale: 'aluminium',
    remark: 'the softer temper of 5754: the tightest folds',
  },
  {
    id: '6082-t6',
    name: 'EN AW-6082 T6',
    aliases: [],
    family: 'aluminium',
    densityKgM3: fromMemory(2700, 'EN 1999-1-1, from memory'),
    yieldMpa: published(260, 'DIN EN 485-2, quoted by a stockholder; up to 6 mm'),
    tensileMpa: published([310, null], 'DIN EN 485-2, quoted by a stockholder; up to 6 mm'),
    modulusMpa: ALUMINIUM_MODULUS,
    stockThicknessesMm: STOCK,
    leastRadius: factors(
      `${EN_485}; ${NEXT_CLASS}`,
      'published',
      [1.5, 2.5],
      [3, 3.5],
      [6, 4.5],
      [12.5, 6],
    ),
    gaugeScale: 'aluminium',
    remark:
      'hard plate for machined parts: cracks at small radii, loses strength where it is welded',
  },
];
