import { type DxfRecord, numberAt, textAt } from './records.ts';

/**
 * How a layer is hidden. A frozen layer hides the blocks that lie on it; a layer that is off does
 * not.
 */
export type Concealed = 'off' | 'frozen';

/**
 * The key of a layer; capitals and small letters make no difference in names of layers (DXF
 * Reference, symbol tables; ezdxf documentation, layers).
 */
export const layerKey = (name: string): string => name.toUpperCase();

/** Layers of the file that are switched off or frozen (LAYER, groups 62 and 70), by their keys. */
export const concealedLayers = (tables: readonly DxfRecord[]): ReadonlyMap<string, Concealed> => {
  const concealed = new Map<string, Concealed>();
  for (const record of tables) {
    if (record.type !== 'LAYER') continue;
    const key = layerKey(textAt(record, 2) ?? '');
    if ((numberAt(record, 70) & 1) === 1) concealed.set(key, 'frozen');
    else if (numberAt(record, 62, 7) < 0) concealed.set(key, 'off');
  }
  return concealed;
};

export const layerOf = (r: DxfRecord): string => textAt(r, 8) ?? '0';
