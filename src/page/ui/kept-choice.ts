import { effect, type Signal, signal } from '@preact/signals';

/**
 * What somebody chose, kept in this browser for the next visit; the first choice until there is one. In a
 * browser that keeps nothing it is chosen again then.
 */
export const keptChoice = <T extends string>(name: string, choices: readonly T[]): Signal<T> => {
  const key = `blankwright.${name}`;
  const chosen = signal<T>(kept(key, choices));
  effect(() => {
    try {
      localStorage.setItem(key, chosen.value);
    } catch {
      // It is chosen again on the next visit.
    }
  });
  return chosen;
};

const kept = <T extends string>(key: string, choices: readonly T[]): T => {
  try {
    const found = localStorage.getItem(key);
    return choices.find((choice) => choice === found) ?? (choices[0] as T);
  } catch {
    return choices[0] as T;
  }
};
