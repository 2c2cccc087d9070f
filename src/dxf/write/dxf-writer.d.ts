// The published types of dxf-writer leave out bulges, header texts, the tables and the handle
// counter. These are the parts used here, as its source has them. Nothing else in the project uses
// these types.

declare module 'dxf-writer/src/TagsManager.js' {
  export default class TagsManager {
    push(code: number, value: number | string): void;
  }
}

declare module 'dxf-writer/src/Handle.js' {
  const Handle: { seed: number };
  export default Handle;
}

declare module 'dxf-writer/src/Layer.js' {
  import type TagsManager from 'dxf-writer/src/TagsManager.js';
  export default class Layer {
    shapes: unknown[];
    constructor(name: string, colorNumber: number, lineTypeName: string);
    tags(manager: TagsManager): void;
    shapesTags(space: unknown, manager: TagsManager): void;
  }
}

declare module 'dxf-writer/src/Viewport.js' {
  import type TagsManager from 'dxf-writer/src/TagsManager.js';
  export default class Viewport {
    constructor(name: string, height: number);
    tags(manager: TagsManager): void;
  }
}

declare module 'dxf-writer/src/Drawing.js' {
  import type Layer from 'dxf-writer/src/Layer.js';
  import type Viewport from 'dxf-writer/src/Viewport.js';
  export default class Drawing {
    readonly layers: Record<string, Layer>;
    readonly lineTypes: Record<string, unknown>;
    readonly tables: { readonly VPORT: { elements: Viewport[]; add(viewport: Viewport): void } };
    setUnits(unit: 'Millimeters' | 'Inches'): Drawing;
    header(
      variable: string,
      values: readonly (readonly [code: number, value: number | string])[],
    ): Drawing;
    setActiveLayer(name: string): Drawing;
    drawLine(x1: number, y1: number, x2: number, y2: number): Drawing;
    drawCircle(x: number, y: number, radius: number): Drawing;
    drawText(x: number, y: number, height: number, rotationDeg: number, value: string): Drawing;
    drawPolyline(
      points: readonly (readonly [x: number, y: number, bulge?: number | string])[],
      closed: boolean,
    ): Drawing;
    toDxfString(): string;
  }
}
