/** A bend and the text of the rule that it used. */
interface Ruled {
  readonly id: string;
  readonly rule: string;
}

/** More folds than this are counted, not named. */
const MOST_NAMED = 6;

/**
 * The rules that a part's bends really used, worded to complete "bends by": the part's own rule
 * where all use it, and otherwise those that differ by name, such as a roll or a hem: `mh1, C by
 * k:0.5`.
 */
export const rulesUsed = (rule: string, bends: readonly Ruled[]): string => {
  const used = [...new Set(bends.map((b) => b.rule))];
  if (used.length < 2) return used[0] ?? rule;
  const first = used.includes(rule) ? rule : (used[0] as string);
  return [
    first,
    ...used
      .filter((r) => r !== first)
      .map((other) => `${namesOf(bends.filter((b) => b.rule === other))} by ${other}`),
  ].join(', ');
};

const namesOf = (bends: readonly Ruled[]): string =>
  bends.length > MOST_NAMED ? `${bends.length} others` : bends.map((b) => b.id).join(' ');
