/** The choices of each kind. */
export type Choices = Readonly<Record<string, readonly unknown[]>>;
export type Chosen<C extends Choices> = { -readonly [K in keyof C]: C[K][number] };

/** A choice: the number of its kind, and which one of that kind. */
type Choice = readonly [kind: number, one: number];

/**
 * Few rows in which any two choices of different kinds meet at least once (a covering array of
 * strength two). Each row starts from two that have not met, then takes from each other kind the
 * one that meets most others for the first time. The rows are always the same.
 */
export function everyTwo<C extends Choices>(choices: C): Chosen<C>[] {
  const kinds = Object.entries(choices);
  const apart = new Map<string, readonly [Choice, Choice]>();
  for (const [a, [, ofA]] of kinds.entries())
    for (const [b, [, ofB]] of kinds.entries())
      if (a < b)
        for (const i of ofA.keys())
          for (const j of ofB.keys())
            apart.set(pairKey([a, i], [b, j]), [
              [a, i],
              [b, j],
            ]);
  const rows: Chosen<C>[] = [];
  for (let next = apart.values().next(); next.done !== true; next = apart.values().next()) {
    const row = filled(
      [...next.value],
      kinds.map(([, ones]) => ones.length),
      (one, other) => apart.has(pairKey(one, other)),
    );
    for (const one of row) for (const other of row) apart.delete(pairKey(one, other));
    rows.push(
      Object.fromEntries(
        row.map(([kind, one]) => [kinds[kind]?.[0], kinds[kind]?.[1][one]]),
      ) as Chosen<C>,
    );
  }
  return rows;
}

const pairKey = (one: Choice, other: Choice): string =>
  (one[0] < other[0] ? [one, other] : [other, one]).join('|');

/** The row with a choice of every kind. */
function filled(
  row: readonly Choice[],
  sizes: readonly number[],
  areApart: (one: Choice, other: Choice) => boolean,
): Choice[] {
  const whole = [...row];
  for (const [kind, size] of sizes.entries()) {
    if (whole.some(([k]) => k === kind)) continue;
    const anew = (one: number): number =>
      whole.filter((other) => areApart([kind, one], other)).length;
    const ones = [...Array(size).keys()];
    whole.push([kind, ones.reduce((best, one) => (anew(one) > anew(best) ? one : best))]);
  }
  return whole;
}
