import type { PartResult } from '../../contract/part.ts';
import { differenceIn } from '../../model/hands-differ.ts';
import type { RuleName } from '../../rules/index.ts';

/** How the pieces of one hand differ from those of the other, in a line; nothing where they do not. */
export const apartLines = (
  pieces: readonly Pick<PartResult, 'name' | 'piece' | 'findings'>[],
): string[] => {
  const told = pieces
    .flatMap(({ findings }) => findings)
    .find(({ rule }) => rule === ('hands-differ' satisfies RuleName))?.message;
  if (told === undefined) return [];
  const alone = pieces.filter(({ findings }) =>
    findings.every(({ rule }) => rule !== ('other-hand' satisfies RuleName)),
  );
  const names = alone.map(({ piece, name }) => piece ?? name).join(', ');
  return [`${differenceIn(told)} Of this hand alone: ${names === '' ? 'no blank' : names}.`];
};
