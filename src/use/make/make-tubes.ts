import type { Hand } from '../../contract/part.ts';
import { hasStop } from '../../model/finding.ts';
import { mirrorTube, tubeTold } from '../../tube/of-kind.ts';
import type { TubePiece } from '../../tube/tube-part.ts';
import type { MadeTube } from '../made-part.ts';
import type { Context } from './context.ts';
import { unmade } from './make-blank.ts';
import type { Made } from './make-given.ts';
import { headOf, NO_BLANK } from './part-head.ts';
import { partNotes } from './part-notes.ts';
import { NO_RULE } from './tube-text.ts';

/**
 * The tubes of a family in each hand; where its findings stop them, or it built none, parts that say
 * why. A tube has no blank, so nothing is laid flat, drawn for a cutter or folded; its proof is its
 * sheet bent figure by figure.
 */
export const makeTubes = (
  context: Context,
  hands: readonly Hand[],
  pieces: readonly TubePiece[],
): Pick<Made & { readonly ok: true }, 'parts' | 'tubes'> => {
  const { findings, tell } = context;
  if (!hasStop(findings) && pieces.length > 0)
    return { parts: [], tubes: hands.flatMap((hand) => pieces.map((p) => made(context, hand, p))) };
  const parts = hands.map((hand) => {
    const { top, ...named } = headOf(context, hand, { id: null });
    return unmade({ top: { ...top, rule: NO_RULE }, ...named }, tell(findings));
  });
  return { parts, tubes: [] };
};

const made = (
  context: Context,
  hand: Hand,
  { id, quantity = 1, tube: left }: TubePiece,
): MadeTube => {
  const tube = hand === 'left' ? left : mirrorTube(left);
  const { top, ...named } = headOf(context, hand, { id: id ?? null, quantity });
  const result = {
    ...top,
    rule: NO_RULE,
    ...NO_BLANK,
    findings: context.tell([...context.findings, ...partNotes(context, false, false)]),
    ...tubeTold(tube),
  };
  return { result, ...named, tube };
};
