import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { type Inspected, inspectDxf, type InspectOptions } from '../../src/inspect/inspect.ts';

/** Usual options with which the tests inspect a file. */
export const INSPECTING: InspectOptions = {
  shop: DEFAULT_SHOP,
  units: undefined,
  thicknessMm: undefined,
  material: 'steel',
  gapMm: 1,
  shortMm: 0.1,
  errorMm: 0.01,
};

export const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

export const inspected = (
  file: string | Uint8Array,
  options: Partial<InspectOptions> = {},
): Inspected => {
  const found = inspectDxf(typeof file === 'string' ? bytesOf(file) : file, {
    ...INSPECTING,
    ...options,
  });
  if (!found.ok) throw new Error(found.reason);
  return found;
};

/** The rules of the findings, each once, or those of one severity. */
export const foundRules = (
  { inspection }: Inspected,
  severity?: 'stop' | 'warn' | 'note',
): string[] =>
  [
    ...new Set(
      inspection.findings
        .filter((f) => severity === undefined || f.severity === severity)
        .map((f) => f.rule),
    ),
  ].toSorted();

/**
 * A DXF in millimetres made from shapes in few letters, each on layer 0 or as `LAYER: shape`: `x y
 * x y` a line, `x y r` a circle, `x y x y x y ...` a polyline, closed with `...` behind it.
 */
export const drawnDxf = (...shapes: readonly string[]): string =>
  dxfOf(shapes.map(entityOf).join('\n'));

export const dxfOf = (entities: string, tables = ''): string =>
  [
    '0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC',
    ...(tables === '' ? [] : [`0\nSECTION\n2\nTABLES\n${tables}\n0\nENDSEC`]),
    '0\nSECTION\n2\nENTITIES',
    ...(entities === '' ? [] : [entities]),
    '0\nENDSEC\n0\nEOF\n',
  ].join('\n');

const entityOf = (shape: string): string => {
  const [, layer = '0', text] = /^(?:([^:]*): )?(.*)$/.exec(shape) as unknown as [
    string,
    string | undefined,
    string,
  ];
  const isClosed = text.endsWith(' ...');
  const n = text.replace(' ...', '').split(' ');
  if (n.length === 3) return `0\nCIRCLE\n8\n${layer}\n10\n${n[0]}\n20\n${n[1]}\n40\n${n[2]}`;
  if (n.length === 4 && !isClosed)
    return `0\nLINE\n8\n${layer}\n10\n${n[0]}\n20\n${n[1]}\n11\n${n[2]}\n21\n${n[3]}`;
  const corners = Array.from(
    { length: n.length / 2 },
    (_, i) => `10\n${n[2 * i]}\n20\n${n[2 * i + 1]}`,
  );
  return `0\nLWPOLYLINE\n8\n${layer}\n90\n${corners.length}\n70\n${isClosed ? 1 : 0}\n${corners.join('\n')}`;
};
