import type { TubeGrade } from '../model/tube-grade.ts';
import { fromMemory } from './sourced.ts';

const STEEL = { densityKgM3: fromMemory(7850), modulusMpa: fromMemory(210_000) } as const;
const ALUMINIUM = { densityKgM3: fromMemory(2700), modulusMpa: fromMemory(70_000) } as const;

/** Tube that a small shop buys: all figures from memory of the standards that are named. */
export const TUBE_GRADES: readonly TubeGrade[] = [
  {
    id: 'e235',
    name: 'E235+N',
    aliases: ['e235n', 'erw', 'cds', 'steel'],
    family: 'steel',
    ...STEEL,
    yieldMpa: fromMemory(235, 'EN 10305-1, from memory'),
    elongationPct: fromMemory(25, 'EN 10305-1, from memory'),
    remark: 'the usual precision tube, normalised: bends and welds well',
  },
  {
    id: 'e355',
    name: 'E355+N',
    aliases: ['e355n'],
    family: 'steel',
    ...STEEL,
    yieldMpa: fromMemory(355, 'EN 10305-1, from memory'),
    elongationPct: fromMemory(22, 'EN 10305-1, from memory'),
    remark: 'the stronger precision tube, normalised: springs back more',
  },
  {
    id: 'e235c',
    name: 'E235+C',
    aliases: [],
    family: 'steel',
    ...STEEL,
    yieldMpa: fromMemory(390, 'EN 10305-1, from memory'),
    elongationPct: fromMemory(6, 'EN 10305-1, from memory'),
    bendAs: 'e235, the same tube normalised',
    remark: 'drawn hard: straight and smooth, cracks when it is bent tightly',
  },
  {
    id: 's235jrh',
    name: 'S235JRH',
    aliases: ['s235'],
    family: 'steel',
    ...STEEL,
    yieldMpa: fromMemory(235, 'EN 10219-1, from memory'),
    elongationPct: fromMemory(24, 'EN 10219-1, from memory'),
    remark: 'welded structural tube: frames and stays; keep the seam off the outside of bends',
  },
  {
    id: '1.4301',
    name: 'X5CrNi18-10',
    aliases: ['304', 'stainless'],
    family: 'stainless',
    densityKgM3: fromMemory(7900),
    modulusMpa: fromMemory(200_000),
    yieldMpa: fromMemory(195, 'EN 10217-7, from memory'),
    elongationPct: fromMemory(40, 'EN 10217-7, from memory'),
    remark: 'stainless: hardens as it is bent, springs back more than its strength says',
  },
  {
    id: '6060-t4',
    name: 'EN AW-6060 T4',
    aliases: [],
    family: 'aluminium',
    ...ALUMINIUM,
    yieldMpa: fromMemory(60, 'EN 755-2, from memory'),
    elongationPct: fromMemory(16, 'EN 755-2, from memory'),
    remark: 'the temper of 6060 to bend: soft until it is aged',
  },
  {
    id: '6060-t66',
    name: 'EN AW-6060 T66',
    aliases: ['6060', '6063-t6'],
    family: 'aluminium',
    ...ALUMINIUM,
    yieldMpa: fromMemory(160, 'EN 755-2, from memory'),
    elongationPct: fromMemory(8, 'EN 755-2, from memory'),
    bendAs: '6060-t4',
    remark: 'the usual round tube of aluminium: bends at large radii only',
  },
  {
    id: '6082-t4',
    name: 'EN AW-6082 T4',
    aliases: [],
    family: 'aluminium',
    ...ALUMINIUM,
    yieldMpa: fromMemory(110, 'EN 755-2, from memory'),
    elongationPct: fromMemory(14, 'EN 755-2, from memory'),
    remark: 'the temper of 6082 to bend: hardened by ageing afterwards',
  },
  {
    id: '6082-t6',
    name: 'EN AW-6082 T6',
    aliases: ['6082'],
    family: 'aluminium',
    ...ALUMINIUM,
    yieldMpa: fromMemory(250, 'EN 755-2, from memory'),
    elongationPct: fromMemory(8, 'EN 755-2, from memory'),
    bendAs: '6082-t4',
    remark: 'hard: snaps in a bend of a few diameters',
  },
  {
    id: '6061-t6',
    name: 'EN AW-6061 T6',
    aliases: ['6061'],
    family: 'aluminium',
    ...ALUMINIUM,
    yieldMpa: fromMemory(240, 'EN 755-2, from memory'),
    elongationPct: fromMemory(8, 'EN 755-2, from memory'),
    bendAs: '6061-t4 or 6060-t4',
    remark: 'hard: snaps in a bend of a few diameters',
  },
];

/** The grade of an id or another name of it. */
export const findTubeGrade = (given: string): TubeGrade | undefined => {
  const name = given.trim().toLowerCase();
  return (
    TUBE_GRADES.find(({ id }) => id === name) ??
    TUBE_GRADES.find((grade) => grade.aliases.includes(name) || grade.name.toLowerCase() === name)
  );
};
