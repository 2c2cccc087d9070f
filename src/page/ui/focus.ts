import { signal } from '@preact/signals';

/** The input whose field has the cursor: pictures mark what it measures. */
export const focused = signal<string | undefined>(undefined);

/** Gives the cursor to the field of an input, wherever its group is closed. */
export const focusInput = (name: string): void => {
  const field =
    document.querySelector<HTMLElement>(`#in-${CSS.escape(name)}`) ??
    document.querySelector<HTMLElement>(`[data-input="${CSS.escape(name)}"] input`);
  const group = field?.closest('details.group');
  if (group instanceof HTMLDetailsElement) group.open = true;
  field?.focus();
  if (field instanceof HTMLInputElement) field.select();
};
