import { type DxfRecord, numberAt, textAt } from './records.ts';

/**
 * How a layer is kept from being seen. What is frozen takes the blocks that lie on it along; what
 * is off does not.
 */
export type Concealed = 'off' | 'frozen';

/**
 * Names of layers are the same in capitals and small letters (DXF Reference, symbol tables; ezdxf
 * documentation, layers).
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
