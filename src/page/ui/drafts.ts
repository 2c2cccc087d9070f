/** What was typed and is not kept yet, with what it was made from. */
export interface Draft {
  readonly base: string;
  readonly text: string;
}

/**
 * Keeps what is typed in this browser from the first letter on, until it is saved where it belongs: a
 * page that is loaded again or killed loses nothing. `name` tells the drafts of several jobs apart.
 * A browser that keeps nothing, or nothing more, keeps no draft.
 */
export const draftsOf = (name: string) => {
  const key = `blankwright.draft.${name}`;
  return {
    keep: (draft: Draft): void => {
      try {
        localStorage.setItem(key, JSON.stringify(draft));
      } catch {
        // It is saved soon where it belongs.
      }
    },
    forget: (): void => {
      try {
        localStorage.removeItem(key);
      } catch {
        // There is none, then.
      }
    },
    left: (): Draft | undefined => {
      try {
        const draft = JSON.parse(localStorage.getItem(key) ?? 'null') as Partial<Draft> | null;
        return typeof draft?.base === 'string' && typeof draft.text === 'string'
          ? { base: draft.base, text: draft.text }
          : undefined;
      } catch {
        return undefined;
      }
    },
  };
};
