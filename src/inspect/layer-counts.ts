import { layerKey } from '../dxf/read/layers.ts';
import type { Stroke } from '../dxf/read/explode.ts';
import { lengthOf } from '../geometry/piece-length.ts';
import { byKey } from '../text/grouped.ts';
import type { CutPiece } from './understand.ts';
import type { LayerCount } from '../contract/inspection.ts';

/** Curves that count as one piece, however many arcs they are read as. */
const WHOLE = new Set(['CIRCLE', 'ARC', 'ELLIPSE', 'SPLINE']);

/** The layers of some strokes, and of the pieces that those were turned into. */
export const layersOf = (strokes: readonly Stroke[], pieces: readonly CutPiece[]): LayerCount[] => {
  const lengths = byKey(pieces, (p) => layerKey(p.layer));
  return [...byKey(strokes, (s) => layerKey(s.layer))].map(([key, all]) => ({
    name: (all[0] as Stroke).layer,
    pieces: new Set(all.map((s, i) => (WHOLE.has(s.type) ? `${s.entity}` : `${s.entity} ${i}`)))
      .size,
    lengthMm: lengthOf(lengths.get(key) ?? []),
  }));
};
