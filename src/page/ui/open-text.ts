import { computed, signal } from '@preact/signals';
import { changed, type History, redone, startOf, undone } from '../model/history.ts';

/** A file that is open in the page: its text as it is typed, and the way back from every change. */
export class OpenText {
  readonly #history = signal<History>(startOf(''));
  readonly text = computed(() => this.#history.value.text);
  /** The words of what undo and redo would do; `undefined` where there is nothing. */
  readonly undoWords = computed(() => this.#history.value.past.at(-1)?.words);
  readonly redoWords = computed(() => this.#history.value.future[0]?.words);

  constructor(text: string) {
    this.begin(text);
  }

  /** Begins with the text that is kept: there is nothing to undo yet. */
  begin(text: string): void {
    this.#history.value = startOf(text);
  }

  /** Takes the text a step on. Changes of one thing with the same `of` are one step of undo. */
  change(text: string, words: string, of?: string): void {
    const step = { words, of: of ?? '', joins: of !== undefined };
    this.#history.value = changed(this.#history.value, text, step);
  }

  undo(): void {
    this.#history.value = undone(this.#history.value);
  }

  redo(): void {
    this.#history.value = redone(this.#history.value);
  }
}
