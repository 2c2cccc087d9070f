import { effect, signal } from '@preact/signals';
import type { Saved } from '../model/kept.ts';
import { draftsOf } from './drafts.ts';
import type { OpenText } from './open-text.ts';

export type SaveState = 'saved' | 'saving' | 'changed outside' | { readonly refused: string };

/** What the file says after somebody else changed it, and what both texts were made from. */
export interface Conflict {
  readonly theirs: string;
  readonly base: string;
}

/** A text as it is kept outside the page, and what stands for it. */
export interface Kept {
  readonly text: string;
  readonly stamp: string;
}

/** Milliseconds of rest before a text is saved, and before it is tried again where that failed. */
const SAVE_REST = 700;
const RETRY_REST = 4000;

/** How one open file gets to where it is kept, and what becomes of it where it does not. */
export class KeptText {
  /** What the file is to a person: `job`, `shop`. */
  readonly called: string;
  readonly file: OpenText;
  readonly saving = signal<SaveState>('saved');
  readonly conflict = signal<Conflict | undefined>(undefined);
  readonly #save: (text: string, stamp: string) => Promise<Saved>;
  #kept: Kept = { text: '', stamp: '' };
  #drafts = draftsOf('');
  #timer: ReturnType<typeof setTimeout> | undefined;
  /** The save that is on its way: two at a time would be a change outside to each other. */
  #onItsWay: Promise<void> | undefined;

  constructor(
    called: string,
    file: OpenText,
    save: (text: string, stamp: string) => Promise<Saved>,
  ) {
    [this.called, this.file, this.#save] = [called, file, save];
  }

  /** Opens what is kept, with what was typed last and got nowhere. */
  open(kept: Kept, drafts: string): void {
    this.#kept = kept;
    this.#drafts = draftsOf(drafts);
    this.file.begin(kept.text);
    const draft = this.#drafts.left();
    if (draft === undefined || draft.text === kept.text) return;
    this.file.change(draft.text, 'what was typed last');
    if (draft.base === kept.text) return;
    this.conflict.value = { theirs: kept.text, base: draft.base };
    this.saving.value = 'changed outside';
  }

  /** Keeps every change from now on. */
  start(): void {
    effect(() => {
      const text = this.file.text.value;
      if (text === this.#kept.text) return;
      this.#drafts.keep({ base: this.conflict.peek()?.base ?? this.#kept.text, text });
      this.#saveAfter(SAVE_REST);
    });
  }

  async saveNow(): Promise<void> {
    await this.#onItsWay;
    const text = this.file.text.value;
    if (text === this.#kept.text || this.conflict.value !== undefined) return;
    this.saving.value = 'saving';
    this.#onItsWay = this.#saved(text);
    await this.#onItsWay;
    this.#onItsWay = undefined;
  }

  #saveAfter(ms: number): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.saveNow(), ms);
  }

  async #saved(text: string): Promise<void> {
    const saved = await this.#save(text, this.#kept.stamp);
    if (saved.how === 'saved') {
      this.#kept = { text, stamp: saved.stamp };
      this.saving.value = 'saved';
      if (this.file.text.value === text) this.#drafts.forget();
      else this.#saveAfter(0);
    } else if (saved.how === 'changed') {
      this.conflict.value = { theirs: saved.theirs, base: this.#kept.text };
      this.#kept = { ...this.#kept, stamp: saved.stamp };
      this.saving.value = 'changed outside';
    } else {
      this.saving.value = { refused: saved.why };
      this.#saveAfter(RETRY_REST);
    }
  }

  /** Goes on with some text after the file was changed outside. */
  settle(text: string, words: string): void {
    this.#kept = { ...this.#kept, text: this.conflict.value?.theirs ?? this.#kept.text };
    this.conflict.value = undefined;
    this.saving.value = 'saved';
    this.file.change(text, words);
    this.#saveAfter(0);
  }

  /** Takes what somebody else made of the file while nobody looked at this page. */
  async look(again: () => Promise<Kept | undefined>): Promise<void> {
    if (this.conflict.value !== undefined) return;
    if (this.#isTyped()) {
      await this.saveNow();
      return;
    }
    const now = await again();
    if (now === undefined || now.stamp === this.#kept.stamp || this.#isTyped()) return;
    this.#kept = now;
    this.file.change(now.text, 'changed elsewhere');
  }

  #isTyped(): boolean {
    return this.file.text.value !== this.#kept.text;
  }
}
