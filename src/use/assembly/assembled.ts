import { type Assembly, type PlacedPiece } from '../../assembly/assembly.ts';
import type { Standing } from '../../model/standing.ts';
import { rolledPart } from '../../assembly/rolled-part.ts';
import { flattenSound } from '../../flatten/flatten.ts';
import { grouped } from '../../text/grouped.ts';
import { MIDDLE_OF_SHEET } from '../../model/bend-rule.ts';
import { mirrorPart } from '../../model/mirror.ts';
import type { MadePart, WholePart } from '../made-part.ts';

/** The whole that the pieces of one set in one hand are joined to, with the parts it is made of. */
export interface MadeSet {
  readonly name: string;
  readonly base: string;
  readonly mark: string;
  readonly parts: readonly WholePart[];
  readonly assembly: Assembly;
}

/**
 * The sets among some parts, one for each hand: those of which every piece was made, of sheet of one
 * thickness, and says where it stands.
 */
export const setsOf = (parts: readonly MadePart[]): MadeSet[] =>
  grouped(
    parts.filter(({ set }) => set !== undefined),
    ({ set }) => set?.mark ?? '',
  ).flatMap((group): MadeSet[] => {
    const whole = group.filter((part): part is WholePart => !part.stopped);
    const [first] = whole;
    if (first?.set === undefined || whole.length < group.length) return [];
    const pieces = whole.map(piecesOf);
    if (pieces.some((some) => some.length === 0)) return [];
    if (whole.some(({ part }) => part.thicknessMm !== first.part.thicknessMm)) return [];
    const placed = pieces.flat().toSorted((a, b) => a.turn - b.turn);
    if (placed.length < 2) return [];
    return [{ ...first.set, parts: whole, assembly: { name: first.set.name, pieces: placed } }];
  });

/** The set that a part is a piece of. */
export const setOfPart = (sets: readonly MadeSet[], part: MadePart): MadeSet | undefined =>
  sets.find(({ parts }) => parts.some(({ base }) => base === part.base));

/** A part at each of its places. */
const piecesOf = (made: WholePart): PlacedPiece[] => {
  const { standing, result } = made;
  if (standing === undefined) return [];
  const formed = formedOf(made, standing);
  const id = result.piece ?? result.name;
  return standing.poses.map((pose, i) => ({
    name: standing.poses.length === 1 ? id : `${id} no. ${i + 1}`,
    id,
    ...formed,
    pose,
    turn: standing.turn ?? 1,
    ...(standing.weldedTo !== undefined && { weldedTo: standing.weldedTo }),
  }));
};

type Formed = Pick<PlacedPiece, 'part' | 'flat' | 'isRolled'>;

const formedOf = (
  { part, flat, result }: WholePart,
  { rolledOver: flats, flatsDeg }: Standing,
): Formed => {
  if (flats === undefined) return { part, flat, isRolled: false };
  // Rolled as the left hand is, from the end at the left of its drawing.
  const turn = (one: typeof part): typeof part => (result.hand === 'left' ? one : mirrorPart(one));
  const rolled = rolledPart(turn(part), flats, flatsDeg);
  if (rolled === undefined) return { part, flat, isRolled: false };
  const formed = turn(rolled);
  return { part: formed, flat: flattenSound(formed, MIDDLE_OF_SHEET), isRolled: true };
};
