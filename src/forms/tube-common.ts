import { COMMON_INPUTS, type CommonParsed, resolveCommon } from './common.ts';
import type { Field } from './field.ts';

/** Those of the common inputs that a family of tubes is asked: the others are about sheet and its folds. */
export const TUBE_COMMON = [
  'hand',
  'rightDiffers',
  'quantity',
  'name',
] as const satisfies readonly (keyof typeof COMMON_INPUTS)[];

/**
 * What a family of tubes is asked, with everything about sheet at its default, so that nothing that
 * reads common values comes upon a hole. The sheet's thickness is the tube's wall.
 */
export const resolveTubeCommon = (
  parsed: CommonParsed & { readonly wall?: unknown },
  family: string,
): ReturnType<typeof resolveCommon> => {
  const unasked = Object.entries<Field>(COMMON_INPUTS).flatMap(([name, field]) => {
    const read = field.read(undefined);
    return read.ok ? [[name, read.value] as const] : [];
  });
  const { hand, rightDiffers, quantity, name, wall } = parsed;
  if (
    hand === undefined ||
    rightDiffers === undefined ||
    quantity === undefined ||
    typeof wall !== 'number'
  )
    return { problems: [] };
  const thickness = String(wall);
  return resolveCommon(
    {
      ...Object.fromEntries(unasked),
      hand,
      rightDiffers,
      quantity,
      name,
      thickness,
    } as CommonParsed,
    family,
  );
};
