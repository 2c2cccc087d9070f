import { foldUp } from '../../fold/fold-up.ts';
import { foldedSeat } from '../../fold/seat.ts';
import type { Part } from '../../model/part.ts';
import type { FoldingPiece } from '../../solid/folding-model.ts';
import type { MadeSet } from '../assembly/assembled.ts';
import type { WholePart } from '../made-part.ts';

/** A part that folds in the order of its plan; it stands as its model does, its largest panel as drawn. */
export const piecesOfPart = (made: WholePart): readonly FoldingPiece[] => {
  const { part, flat, result } = made;
  const pose = foldedSeat(flat, foldUp(part, flat).poses);
  return [{ name: result.name, part, flat, pose, turn: 1, order: orderOf(made) }];
};

/** The pieces of a set in their places, each with the order of its folds. */
export const piecesOfSet = ({ parts, assembly }: MadeSet): readonly FoldingPiece[] => {
  const orders = new Map(parts.map((part) => [part.result.piece, orderOf(part)]));
  return assembly.pieces.map((piece): FoldingPiece => ({
    ...piece,
    order: piece.isRolled
      ? allTogether(piece.part)
      : (orders.get(piece.id) ?? allTogether(piece.part)),
  }));
};

/** The folds as the plan has them; what it has no order for is folded all at once. */
const orderOf = ({ part, result: { foldPlan } }: WholePart): FoldingPiece['order'] => {
  if (part.folds.some((fold) => fold.midSurface === true)) return allTogether(part);
  const known = new Set<string>();
  const steps = (foldPlan?.steps ?? []).map(({ bend }) =>
    bend.split(' + ').filter((fold) => !known.has(fold) && known.add(fold)),
  );
  const rest = part.folds.map(({ id }) => id).filter((id) => !known.has(id));
  const left = known.size === 0 ? rest.map((id) => [id]) : [rest];
  return [...steps, ...left].filter((together) => together.length > 0);
};

const allTogether = ({ folds }: Part): FoldingPiece['order'] =>
  folds.length === 0 ? [] : [folds.map(({ id }) => id)];
