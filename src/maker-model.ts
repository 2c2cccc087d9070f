import makerjs from 'makerjs';
import type { Loop } from './geometry/loop.ts';
import { arcOf } from './geometry/arc.ts';
import { pieceOf } from './geometry/piece.ts';
import type { Drawing, DrawingItem } from './model/drawing.ts';
import { layerOf } from './dxf/write/layers.ts';

/**
 * What makerjs calls `IModel`, as far as it is used here. Its own types ask for those of a browser
 * and of an old Node, which a program that takes only ours need not have.
 */
export interface MakerModel {
  units?: string;
  layer?: string;
  models?: Record<string, MakerModel>;
  paths?: Record<string, MakerPath>;
}

/** x and y by their numbers. */
export interface MakerPoint {
  [index: number]: number;
}

/** A line, circle or arc, told apart by `type`. */
export interface MakerPath {
  type: string;
  origin: MakerPoint;
  end?: MakerPoint;
  radius?: number;
  startAngle?: number;
  endAngle?: number;
}

/**
 * A drawing as a makerjs model in millimetres, for whoever draws on from a blank with that library.
 * Texts are left out; each thing is a model of its own on the layer its role has in a DXF.
 */
export const makerModel = (drawing: Drawing): MakerModel => ({
  units: makerjs.unitType.Millimeter,
  models: Object.fromEntries(
    drawing.items.flatMap((item, i) => {
      const model = itemModel(item);
      return model === undefined
        ? []
        : [[`${item.role}-${i}`, { ...model, layer: layerOf(item.role).name }]];
    }),
  ),
});

const itemModel = (item: DrawingItem): MakerModel | undefined => {
  switch (item.kind) {
    case 'loop':
      return {
        paths: Object.fromEntries(item.loop.map((_, i) => [`p${i}`, piecePath(item.loop, i)])),
      };
    case 'circle':
      return { paths: { circle: new makerjs.paths.Circle([...item.centre], item.radius) } };
    case 'line':
      return { paths: { line: new makerjs.paths.Line([...item.from], [...item.to]) } };
    case 'text':
      return undefined;
  }
};

const DEG = 180 / Math.PI;

/** makerjs draws arcs counter-clockwise only. */
const piecePath = (loop: Loop, i: number): MakerPath => {
  const { from, to, bulge } = pieceOf(loop, i);
  if (bulge === 0) return new makerjs.paths.Line([...from], [...to]);
  const arc = arcOf(from, to, bulge);
  const [a, b] = [arc.startRad * DEG, (arc.startRad + arc.sweepRad) * DEG];
  return bulge > 0
    ? new makerjs.paths.Arc([...arc.centre], arc.radius, a, b)
    : new makerjs.paths.Arc([...arc.centre], arc.radius, b, a);
};
