import { diff3Merge } from 'node-diff3';

/** Lines of two texts that came from one: what goes without asking, and where both changed the same. */
export type Stretch =
  | { readonly kind: 'agreed'; readonly lines: readonly string[] }
  | {
      readonly kind: 'asked';
      readonly mine: readonly string[];
      readonly theirs: readonly string[];
    };

/** What the package gives, whose types say nothing of it. */
interface Region {
  readonly ok?: readonly string[];
  readonly conflict?: { readonly a: readonly string[]; readonly b: readonly string[] };
}

/** Which of two stretches of lines goes on. */
export type Taken = 'mine' | 'theirs' | 'both';

/**
 * Two texts that were changed from one base, line by line: a line that only one of them changed is
 * taken as changed; where both changed the same lines differently, it has to be asked.
 */
export const stretchesOf = (base: string, mine: string, theirs: string): readonly Stretch[] =>
  (
    diff3Merge(mine.split('\n'), base.split('\n'), theirs.split('\n'), {
      excludeFalseConflicts: true,
    }) as readonly Region[]
  ).map(({ ok, conflict }): Stretch =>
    conflict === undefined
      ? { kind: 'agreed', lines: ok ?? [] }
      : { kind: 'asked', mine: conflict.a, theirs: conflict.b },
  );

/** The text that is made of them; each that is asked goes by its place among those that are. */
export const joined = (stretches: readonly Stretch[], taken: (asked: number) => Taken): string => {
  let asked = 0;
  return stretches
    .flatMap((stretch) => {
      if (stretch.kind === 'agreed') return stretch.lines;
      const which = taken(asked++);
      return which === 'both' ? [...stretch.mine, ...stretch.theirs] : stretch[which];
    })
    .join('\n');
};
