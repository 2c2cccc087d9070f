import type { Redesign } from '../../contract/redesign.ts';
import type { FlatPattern } from '../../model/flat.ts';
import { distance } from '../../geometry/vec2.ts';

/**
 * What a change of design costs, by which redesigns are ranked. The weights are an order of wishes
 * and no prices: a seam is set up, tacked and closed; tabs in slots are more to cut, and a lap takes
 * a strip of sheet and a fold more; a piece more is cut, cleaned and held; a changed size may no longer fit where it goes, the more the further it is from what was asked; a
 * changed choice is another part than was thought of.
 */
export const costOf = ({
  seams,
  seamMm,
  slits,
  slitMm,
  laps,
  lapMm,
  tabs,
  tabMm,
  pieces,
  changes,
}: Omit<Redesign, 'inputs' | 'flags'>): number =>
  SEAM * (seams + slits) +
  TABS * tabs +
  LAP * laps +
  (seamMm + slitMm + lapMm + tabMm) / MM_OF_SEAM +
  PIECE * Math.max(0, pieces.now - pieces.before) +
  changes.reduce((sum, { from, to }) => sum + changeCost(from, to), 0);

const SEAM = 5;
const TABS = 6;
const LAP = 7;
const MM_OF_SEAM = 50;
const PIECE = 3;
const CHOICE = 12;
const SIZE = 6;
/** As much again for each hundredth of a size. */
const PER_SHARE = 100;

const changeCost = (from: unknown, to: unknown): number =>
  typeof from === 'number' && typeof to === 'number'
    ? SIZE + (PER_SHARE * Math.abs(to - from)) / Math.max(1, Math.abs(from))
    : CHOICE;

/** By which share of itself a size may change for less than some cost; none for a negative one. */
export const shareWithin = (cost: number): number => (cost - SIZE) / PER_SHARE;

/** What another choice costs at least. */
export const LEAST_CHOICE = CHOICE;

/** Length of a fold as far as there is metal, mm. */
export const foldMm = ({ bends }: FlatPattern, id: string): number => {
  const line = bends.find((bend) => bend.id === id)?.centreLine;
  return line === undefined ? 0 : distance(line[0], line[1]);
};
