import DxfDrawing from 'dxf-writer/src/Drawing.js';
import Handle from 'dxf-writer/src/Handle.js';
import DxfLayer from 'dxf-writer/src/Layer.js';
import type TagsManager from 'dxf-writer/src/TagsManager.js';
import Viewport from 'dxf-writer/src/Viewport.js';
import type { Extents } from '../../geometry/extents.ts';
import type { Vertex } from '../../geometry/loop.ts';
import type { DrawingItem } from '../../model/drawing.ts';
import type { CutterImport } from '../../model/shop.ts';
import { viewOf, type View } from './dxf-view.ts';
import { layerOf, usedLayers, type Layer } from './layers.ts';
import { plainText } from './numbers.ts';
import { dxfText } from './text.ts';
import { fileNumber } from '../../text/file-number.ts';

/**
 * The text of a DXF file of release 2000 (AC1015), by dxf-writer. That library states AC1021
 * instead, whose texts are UTF-8. Apart from that, release 2000 knows everything that it writes
 * (LWPOLYLINE, line weights, handles and owners), and with texts in ASCII the two read alike. More
 * readers take the older version; an auditor finds neither errors nor things to mend in it.
 */
export const dxfR2000 = (
  items: readonly DrawingItem[],
  extents: Extents,
  units: CutterImport['units'],
): string => {
  // The library counts handles through the whole process; starting from 0, the same drawing gives
  // the same bytes.
  Handle.seed = 0;
  const dxf = new DxfDrawing();
  addHeader(dxf, extents, units);
  addTables(dxf, viewOf(extents));
  const shapes: unknown[] = [];
  usedLayers(items).forEach((layer, i) => {
    dxf.layers[layer.name] = new WeightedLayer(layer, shapes, i === 0);
  });
  for (const item of items) addItem(dxf.setActiveLayer(layerOf(item.role).name), item);
  return `${dxf.toDxfString()}\n`;
};

const addHeader = (
  dxf: DxfDrawing,
  { minX, minY, maxX, maxY }: Extents,
  units: CutterImport['units'],
): void => {
  dxf.header('ACADVER', [[1, 'AC1015']]);
  dxf.header('DWGCODEPAGE', [[3, 'ANSI_1252']]);
  dxf.setUnits(units === 'mm' ? 'Millimeters' : 'Inches');
  dxf.header('MEASUREMENT', [[70, units === 'mm' ? 1 : 0]]);
  dxf.header('EXTMIN', [
    [10, fileNumber(minX)],
    [20, fileNumber(minY)],
    [30, 0],
  ]);
  dxf.header('EXTMAX', [
    [10, fileNumber(maxX)],
    [20, fileNumber(maxY)],
    [30, 0],
  ]);
};

const addTables = (dxf: DxfDrawing, view: View): void => {
  // No layer uses these line types, and their descriptions end in a blank.
  delete dxf.lineTypes['DASHED'];
  delete dxf.lineTypes['DOTTED'];
  dxf.tables.VPORT.elements = [];
  dxf.tables.VPORT.add(new CentredViewport(view));
};

const addItem = (dxf: DxfDrawing, item: DrawingItem): void => {
  switch (item.kind) {
    case 'loop':
      dxf.drawPolyline(item.loop.map(polylinePoint), true);
      break;
    case 'circle':
      dxf.drawCircle(item.centre[0], item.centre[1], item.radius);
      break;
    case 'line':
      dxf.drawLine(item.from[0], item.from[1], item.to[0], item.to[1]);
      break;
    case 'text':
      dxf.drawText(item.at[0], item.at[1], item.heightMm, item.angleDeg, dxfText(item.text));
  }
};

const polylinePoint = (v: Vertex): readonly [number, number, string?] =>
  v.bulge === 0 ? [v.x, v.y] : [v.x, v.y, plainText(v.bulge)];

/**
 * The library's layers have no line weight, and write what lies on each together. Here they share
 * one list of it, which the first of them writes, so that everything stands in its own order.
 */
class WeightedLayer extends DxfLayer {
  readonly #lineWeight: number;
  readonly #isFirst: boolean;

  constructor({ name, dxfColour, lineWeight }: Layer, all: unknown[], isFirst: boolean) {
    super(name, dxfColour, 'CONTINUOUS');
    this.#lineWeight = lineWeight;
    this.#isFirst = isFirst;
    this.shapes = all;
  }

  override shapesTags(space: unknown, manager: TagsManager): void {
    if (this.#isFirst) super.shapesTags(space, manager);
  }

  override tags(manager: TagsManager): void {
    super.tags(manager);
    manager.push(370, this.#lineWeight);
  }
}

/** The library's view always shows the same 1000 mm round the origin. */
class CentredViewport extends Viewport {
  readonly #view: View;

  constructor(view: View) {
    super('*ACTIVE', view.height);
    this.#view = view;
  }

  override tags(manager: TagsManager): void {
    super.tags(manager);
    manager.push(10, 0);
    manager.push(20, 0);
    manager.push(11, 1);
    manager.push(21, 1);
    manager.push(12, this.#view.centreX);
    manager.push(22, this.#view.centreY);
    manager.push(41, this.#view.aspect);
  }
}
