import type { Vec2 } from '../../src/geometry/vec2.ts';

/** A table of a paper. */
export interface ReadTable {
  readonly title: string;
  readonly columns: readonly { readonly name: string }[];
  readonly rows: readonly (readonly string[])[];
}

export interface RebuiltHole {
  readonly key: string;
  readonly centre: Vec2;
  readonly size: string;
  readonly kind: string;
  /** Of a cut-out of any shape. */
  readonly corners: readonly CornerRow[];
}

export interface CornerRow {
  readonly key: string;
  readonly at: Vec2;
  readonly roundMm: number;
  /** Signed radius of the arc to the next; 0: straight. */
  readonly arcMm: number;
  readonly isLong: boolean;
  readonly about?: Vec2;
}

/** Holes by their table: single ones, on pitch circles and in rows. */
export const readHoles = (tables: readonly ReadTable[], towards: Vec2): RebuiltHole[] => {
  const table = tables.find((t) => t.title === 'Holes');
  return (table?.rows ?? []).flatMap(([key, size, kind, x, y]): RebuiltHole[] => {
    const at: Vec2 = [towards[0] * Number(x), towards[1] * Number(y)];
    const isPattern = /on PC|in a row/.test(kind as string);
    const [count, single] = isPattern ? splitCount(size as string) : [1, size as string];
    return placesOf(kind as string, count, at).map((centre): RebuiltHole => ({
      key: key as string,
      centre,
      size: single,
      kind: kind as string,
      corners: [],
    }));
  });
};

/** `6 x Ø5.5` */
const splitCount = (size: string): [number, string] => {
  const [count, ...rest] = size.split(' x ');
  return [Number(count), rest.join(' x ')];
};

const placesOf = (kind: string, count: number, [x, y]: Vec2): Vec2[] => {
  const circle = /on PC ([\d.]+), first at ([\d.]+)°, then every ([\d.]+)°/.exec(kind);
  if (circle !== null) {
    const [r, first, step] = [Number(circle[1]) / 2, Number(circle[2]), Number(circle[3])];
    return Array.from({ length: count }, (_, i): Vec2 => {
      const turn = ((first + i * step) * Math.PI) / 180;
      return [x + r * Math.cos(turn), y + r * Math.sin(turn)];
    });
  }
  const row = /(\d+) in a row every (.*?)(?:, (\d+) such rows every (.*))?$/.exec(kind);
  if (row === null) return [[x, y]];
  const [along, up] = [stepOf(row[2] as string), stepOf(row[4] ?? '')];
  return Array.from({ length: Number(row[3] ?? 1) }, (_, j) =>
    Array.from({ length: Number(row[1]) }, (_, i): Vec2 => [
      x + i * along[0] + j * up[0],
      y + i * along[1] + j * up[1],
    ]),
  ).flat();
};

const stepOf = (text: string): Vec2 => {
  const along = (on: string, back: string): number => {
    const [plus, minus] = [on, back].map(
      (word) => new RegExp(`([\\d.]+) (?:to the )?${word}`).exec(text)?.[1],
    );
    return Number(plus ?? 0) - Number(minus ?? 0);
  };
  return [along('right', 'left'), along('up', 'down')];
};
