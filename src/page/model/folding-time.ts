/**
 * How much of its angle each fold is turned by when so many strokes are made: 2.5 is half way through
 * the third. Folds that are not in the order are as they are when finished.
 */
export const sharesAt = (
  order: readonly (readonly string[])[],
  strokes: number,
): ReadonlyMap<string, number> =>
  new Map(
    order.flatMap((together, i) =>
      together.map((fold): [string, number] => [fold, Math.max(0, Math.min(1, strokes - i))]),
    ),
  );

/** The stroke that is being made, from 0, and how far it is; the last one when all are made. */
export const strokeAt = (
  strokes: number,
  of: number,
): { readonly stroke: number; readonly share: number } => {
  const stroke = Math.max(0, Math.min(of - 1, Math.ceil(strokes) - 1));
  return { stroke, share: Math.max(0, Math.min(1, strokes - stroke)) };
};
