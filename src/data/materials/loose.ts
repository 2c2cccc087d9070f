import type { Material } from '../../model/material.ts';

/** Words of the trade for kinds of sheet that come in several grades. */
const KINDS: readonly (readonly [family: Material['family'], words: readonly string[]])[] = [
  ['stainless', ['stainless', 'inox', 'ss', 'sus', '316', '316l', '14401', '14404', 'v4a']],
  ['galvanised', ['galvanised', 'galvanized', 'galv', 'zinc', 'zintec']],
  ['aluminium', ['aluminium', 'aluminum', 'alu', 'ali', 'ally', 'al', 'alloy']],
  [
    'steel',
    ['steel', 'mild', 'ms', 'black', 'carbon', 'iron', 'plate', 'sheet', 'metal', 'crs', 'hrs'],
  ],
];

/** Trade names of alloys. */
const ALLOYS: ReadonlyMap<string, string> = new Map([['ns4', '5251']]);

/**
 * The materials that a name may mean although it is the name of none, and the reason why it is
 * none.
 */
export interface LooseMaterial {
  readonly why: string;
  readonly materials: readonly Material[];
}

/** Number of characters of a name that a message repeats. */
const MOST_TOLD = 40;

/**
 * The materials that may be meant by `steel`, `mild steel plate`, `ali` or `5251`; `undefined` when
 * the word is not one for a kind of sheet.
 */
export const looseMaterial = (
  name: string,
  all: readonly Material[],
): LooseMaterial | undefined => {
  const told = name.trim().slice(0, MOST_TOLD);
  const words = name
    .toLowerCase()
    .replace(/1\.(?=4\d{3})/g, '1')
    .split(/[^a-z0-9]+/);
  const alloy = words
    .map((word) => ALLOYS.get(word) ?? /^(?:en)?(?:aw)?([1-8]\d{3}a?)$/.exec(word)?.[1])
    .find((found) => found !== undefined);
  if (alloy !== undefined) return alloyOf(told, alloy, all);
  const [family, known] = KINDS.find(([, each]) => words.some((word) => each.includes(word))) ?? [];
  if (family === undefined || known === undefined) return undefined;
  const materials = all.filter((m) => m.family === family);
  const isKind = words.some((word) => known.includes(word) && !/\d/.test(word));
  return {
    why: isKind
      ? `${told} leaves the grade open`
      : `${told} is not in the catalogue, though other ${family} sheet is`,
    materials,
  };
};

const alloyOf = (name: string, alloy: string, all: readonly Material[]): LooseMaterial => {
  const tempers = all.filter((m) => m.family === 'aluminium' && m.id.startsWith(alloy));
  if (tempers.length > 0) return { why: `${name} leaves the temper open`, materials: tempers };
  return {
    why: `${name} is not in the catalogue, though other aluminium sheet is`,
    materials: all.filter((m) => m.family === 'aluminium'),
  };
};
