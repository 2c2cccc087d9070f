/**
 * Returns the least item first. Among equal items it returns the one put in last, so that a search
 * goes deep.
 */
export interface Heap<T> {
  readonly push: (key: number, item: T) => void;
  readonly pop: () => T | undefined;
}

export function makeHeap<T>(): Heap<T> {
  const keys: number[] = [];
  const turns: number[] = [];
  const items: T[] = [];
  let turn = 0;
  const isBefore = (i: number, j: number): boolean =>
    (keys[i] as number) < (keys[j] as number) ||
    (keys[i] === keys[j] && (turns[i] as number) > (turns[j] as number));
  const swap = (i: number, j: number): void => {
    for (const list of [keys, turns, items] as unknown[][]) [list[i], list[j]] = [list[j], list[i]];
  };
  const sink = (): void => {
    for (let i = 0; ;) {
      let least = i;
      for (const child of [2 * i + 1, 2 * i + 2])
        if (child < items.length && isBefore(child, least)) least = child;
      if (least === i) return;
      swap(i, least);
      i = least;
    }
  };
  return {
    push: (key, item) => {
      let i = items.length;
      keys.push(key);
      turns.push((turn += 1));
      items.push(item);
      for (let parent = (i - 1) >> 1; i > 0 && isBefore(i, parent); parent = (i - 1) >> 1) {
        swap(i, parent);
        i = parent;
      }
    },
    pop: () => {
      if (items.length === 0) return undefined;
      swap(0, items.length - 1);
      const item = items.pop() as T;
      keys.pop();
      turns.pop();
      sink();
      return item;
    },
  };
}
