import type { Extents } from '../../geometry/extents.ts';
import type { Loop } from '../../geometry/loop.ts';
import type { DrawingItem } from '../../model/drawing.ts';
import { viewOf } from './dxf-view.ts';
import { layerOf, usedLayers, type Layer } from './layers.ts';
import { plainText } from './numbers.ts';
import { dxfText } from './text.ts';
import { fileNumber } from '../../text/file-number.ts';

/**
 * Group codes, each followed by its value. One list grows through the whole file, which is the
 * fastest way.
 */
type Groups = (number | string)[];

/**
 * The text of a DXF file of release 12 (AC1009) for old controllers. The release has no light
 * polylines, owners, line weights or units, and needs no handles. A file of it is read in the unit
 * of whoever reads it; it is written in millimetres unless another unit is asked for. The structure
 * follows the ezdxf documentation, "DXF R12 internals".
 */
export const dxfR12 = (items: readonly DrawingItem[], extents: Extents): string => {
  const groups: Groups = [];
  groups.push(0, 'SECTION', 2, 'HEADER');
  addHeader(groups, extents);
  groups.push(0, 'ENDSEC', 0, 'SECTION', 2, 'TABLES');
  addViewTable(groups, extents);
  addLineTypeTable(groups);
  addLayerTable(groups, usedLayers(items));
  addStyleTable(groups);
  groups.push(0, 'ENDSEC', 0, 'SECTION', 2, 'ENTITIES');
  for (const item of items) addItem(groups, item, layerOf(item.role).name);
  groups.push(0, 'ENDSEC', 0, 'EOF');
  return `${groups.join('\n')}\n`;
};

const addHeader = (groups: Groups, { minX, minY, maxX, maxY }: Extents): void => {
  groups.push(9, '$ACADVER', 1, 'AC1009');
  groups.push(9, '$EXTMIN', 10, fileNumber(minX), 20, fileNumber(minY), 30, 0);
  groups.push(9, '$EXTMAX', 10, fileNumber(maxX), 20, fileNumber(maxY), 30, 0);
};

const addViewTable = (groups: Groups, extents: Extents): void => {
  const { centreX, centreY, height, aspect } = viewOf(extents);
  groups.push(0, 'TABLE', 2, 'VPORT', 70, 1);
  groups.push(0, 'VPORT', 2, '*ACTIVE', 70, 0, 10, 0, 20, 0, 11, 1, 21, 1);
  groups.push(12, centreX, 22, centreY, 16, 0, 26, 0, 36, 1, 40, height, 41, aspect, 0, 'ENDTAB');
};

/** The table of line types, with the one type of every layer. */
const addLineTypeTable = (groups: Groups): void => {
  groups.push(0, 'TABLE', 2, 'LTYPE', 70, 1);
  groups.push(0, 'LTYPE', 2, 'CONTINUOUS', 70, 0, 3, 'Solid line', 72, 65, 73, 0, 40, 0);
  groups.push(0, 'ENDTAB');
};

const addLayerTable = (groups: Groups, used: readonly Layer[]): void => {
  groups.push(0, 'TABLE', 2, 'LAYER', 70, 1 + used.length);
  groups.push(0, 'LAYER', 2, '0', 70, 0, 62, 7, 6, 'CONTINUOUS');
  for (const { name, dxfColour } of used)
    groups.push(0, 'LAYER', 2, name, 70, 0, 62, dxfColour, 6, 'CONTINUOUS');
  groups.push(0, 'ENDTAB');
};

/** The table of text styles, with the one style of every text. */
const addStyleTable = (groups: Groups): void => {
  groups.push(0, 'TABLE', 2, 'STYLE', 70, 1);
  groups.push(0, 'STYLE', 2, 'STANDARD', 70, 0, 40, 0, 41, 1, 50, 0, 71, 0, 42, 1);
  groups.push(3, 'txt', 4, '', 0, 'ENDTAB');
};

const addItem = (groups: Groups, item: DrawingItem, layer: string): void => {
  switch (item.kind) {
    case 'loop':
      addPolyline(groups, item.loop, layer);
      break;
    case 'circle': {
      const [x, y] = item.centre;
      groups.push(0, 'CIRCLE', 8, layer, 10, x, 20, y, 30, 0, 40, item.radius);
      break;
    }
    case 'line': {
      const { from, to } = item;
      groups.push(0, 'LINE', 8, layer, 10, from[0], 20, from[1], 30, 0);
      groups.push(11, to[0], 21, to[1], 31, 0);
      break;
    }
    case 'text': {
      const { at, heightMm, angleDeg } = item;
      groups.push(0, 'TEXT', 8, layer, 10, at[0], 20, at[1], 30, 0);
      groups.push(40, heightMm, 1, dxfText(item.text), 50, angleDeg);
    }
  }
};

/** The SEQEND is put on the layer of its polyline; without it some readers never come to an end. */
const addPolyline = (groups: Groups, loop: Loop, layer: string): void => {
  groups.push(0, 'POLYLINE', 8, layer, 66, 1, 10, 0, 20, 0, 30, 0, 70, 1);
  for (const { x, y, bulge } of loop) {
    groups.push(0, 'VERTEX', 8, layer, 10, x, 20, y, 30, 0);
    if (bulge !== 0) groups.push(42, plainText(bulge));
  }
  groups.push(0, 'SEQEND', 8, layer);
};
