import type { FlatPattern } from '../model/flat.ts';
import { type BoltHole, boltHoles, playMm } from './bolt-holes.ts';
import { bodyWith, type Folding } from './body.ts';
import type { FoldCause } from './causes.ts';
import { chanceOf } from './chance.ts';
import { GOOD_CHANCE, mendOf } from './mend.ts';
import { type HoleDoubts, type Pattern, patternOf } from './pattern.ts';
import type { BoltFit } from './result.ts';

/** A pattern of more holes than this is a perforation, not something that is bolted on. */
const MOST_HOLES = 40;

/** The bolt holes of each panel, bolted on at once; and those of the whole part, where several panels have some. */
export const fitBolts = (folding: Folding, causes: readonly FoldCause[], flat: FlatPattern, doubts: HoleDoubts): BoltFit[] => {
  const holes = boltHoles(flat);
  const panels = [...new Set(holes.map((h) => h.panel))];
  const groups = [...panels.map((panel) => holes.filter((h) => h.panel === panel)), ...(panels.length > 1 ? [holes] : [])];
  const body = bodyWith(folding, {});
  return groups.flatMap((group): BoltFit[] => {
    if (group.length < 2 || group.length > MOST_HOLES) return [];
    const pattern = patternOf(body, causes, group, faceOf(flat), doubts);
    return pattern === undefined ? [] : [boltFit(pattern, flat)];
  });
};

/** The face that lies against something: the outside of its folds. */
const faceOf = ({ bends, thicknessMm }: FlatPattern): number => (bends.length > 0 && bends.every((b) => b.direction === 'down') ? thicknessMm : 0);

const boltFit = (pattern: Pattern, { bends }: FlatPattern): BoltFit => {
  const chance = chanceOf(pattern, pattern.holes);
  return {
    holes: pattern.holes.map((h: BoltHole) => h.name),
    bolts: pattern.holes.map((h) => h.bolt),
    clearanceMm: Math.round(Math.min(...pattern.holes.map(playMm)) * 1e6) / 1e6,
    chance,
    mend: chance >= GOOD_CHANCE ? null : mendOf(pattern, bends),
  };
};
