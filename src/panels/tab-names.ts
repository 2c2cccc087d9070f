import { nearest } from '../text/nearest.ts';
import type { Panel } from '../model/part.ts';
import type { TabbedPiece } from './tabs.ts';

/** A panel of a piece, or an edge of one. */
export interface NamedEnd {
  readonly piece: TabbedPiece;
  readonly panel: Panel;
  readonly edge?: string;
  readonly index?: number;
}

export type FoundEnd =
  | ({ readonly ok: true } & NamedEnd)
  | { readonly ok: false; readonly allowed: string; readonly mend?: string };

/** Finds what a tab names: `rib end`, `end`, `cheek rib end` as an edge; `base`, `box`, `box base`. */
export const findEnd = (
  pieces: readonly TabbedPiece[],
  written: string,
  own: string | undefined,
  what: 'edge' | 'panel',
): FoundEnd => {
  const words = written.trim().split(/\s+/);
  const edge = what === 'edge' ? (words.at(-1) ?? '') : undefined;
  const name = (what === 'edge' ? words.slice(0, -1) : words).join(' ');
  const found = panelCalled(pieces, name, own);
  if (found === undefined) {
    const all = pieces.flatMap((piece) => namesIn(piece, own));
    const meant = nearest(name, all);
    return {
      ok: false,
      allowed: `${what === 'edge' ? 'an edge of one of the panels' : 'one of the panels'} ${all.slice(0, 12).join(', ')}`,
      ...(meant !== undefined && {
        mend: `did you mean ${[meant, ...(edge === undefined ? [] : [edge])].join(' ')}?`,
      }),
    };
  }
  return edge === undefined ? { ok: true, ...found } : edgeCalled(found, edge);
};

const namesIn = ({ name, part }: TabbedPiece, own: string | undefined): string[] =>
  part.panels.map(({ id }) => (name === own ? id : `${name} ${id}`));

const panelCalled = (
  pieces: readonly TabbedPiece[],
  name: string,
  own: string | undefined,
): NamedEnd | undefined => {
  const panelOf = (piece: TabbedPiece | undefined, id: string): NamedEnd | undefined => {
    const wanted = id === '' ? piece?.part.root : id;
    const panel = piece?.part.panels.find((p) => p.id === wanted);
    return piece === undefined || panel === undefined ? undefined : { piece, panel };
  };
  const [first = '', ...rest] = name.split(' ');
  return (
    panelOf(
      pieces.find((piece) => piece.name === own),
      name,
    ) ??
    panelOf(
      pieces.find((piece) => piece.name !== '' && piece.name === first),
      rest.join(' '),
    )
  );
};

/** A free straight edge of that name, the longest stretch of it where it has several. */
const edgeCalled = (found: NamedEnd, edge: string): FoundEnd => {
  const { piece, panel } = found;
  const isFree = (i: number): boolean =>
    panel.outline[i]?.bulge === 0 &&
    piece.part.folds.every(({ parent, child }) =>
      [parent, child].every((side) => side.panel !== panel.id || side.edge !== i),
    );
  const lengthAt = (i: number): number => {
    const [a, b] = [panel.outline[i], panel.outline[(i + 1) % panel.outline.length]];
    return a === undefined || b === undefined ? 0 : Math.hypot(b.x - a.x, b.y - a.y);
  };
  const [index] = panel.outline
    .flatMap((vertex, i) => (vertex.edge === edge && isFree(i) ? [i] : []))
    .toSorted((a, b) => lengthAt(b) - lengthAt(a));
  if (index !== undefined) return { ok: true, ...found, edge, index };
  const free = panel.outline.flatMap((vertex, i) =>
    vertex.edge !== undefined && isFree(i) ? [vertex.edge] : [],
  );
  const meant = nearest(edge, free);
  return {
    ok: false,
    allowed:
      free.length === 0
        ? `a free straight edge; ${panel.id} has none`
        : `a free straight edge of ${panel.id}: ${[...new Set(free)].join(', ')}`,
    ...(meant !== undefined && { mend: `did you mean ${panel.id} ${meant}?` }),
  };
};
