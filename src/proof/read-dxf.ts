import { MM_PER_INCH } from '../units.ts';
import type { Vertex } from '../geometry/loop.ts';
import type { Piece } from '../geometry/piece.ts';
import type { Vec2 } from '../geometry/vec2.ts';

/** What a DXF draws on one of its layers, in mm as the file counts its units. */
export type DxfEntity =
  | { readonly kind: 'loop'; readonly layer: string; readonly loop: readonly Vertex[] }
  | { readonly kind: 'circle'; readonly layer: string; readonly centre: Vec2; readonly radius: number }
  | { readonly kind: 'piece'; readonly layer: string; readonly piece: Piece }
  | { readonly kind: 'text'; readonly layer: string }
  | { readonly kind: 'unread'; readonly layer: string; readonly type: string };

/** What a file that states no unit is read in. */
export type UnstatedUnit = 'mm' | 'inch';

export type ReadDxf =
  | { readonly ok: true; readonly entities: readonly DxfEntity[]; readonly unit: string }
  | { readonly ok: false; readonly reason: string };

/**
 * Reads the entities of a DXF text by its group codes (DXF Reference, "ENTITIES section"): light and heavy polylines,
 * circles, arcs, lines; everything else is told by its type. `$INSUNITS` says how long a unit is; without it, or with
 * 0, as long as the program that the file is meant for takes it to be: a millimetre, when left out.
 */
export const readDxf = (text: string, unstated: UnstatedUnit = 'mm'): ReadDxf => {
  const lines = text.split('\n');
  const records = recordsIn(lines, 'ENTITIES');
  if (typeof records === 'string') return { ok: false, reason: records };
  const unit = unitOf(lines, unstated);
  const entities = entitiesOf(records, unit.mm);
  return entities === undefined ? { ok: false, reason: 'it holds a coordinate that is no number, or one beyond any sheet' } : { ok: true, entities, unit: unit.name };
};

/** One record: its type (group 0), and its groups in turn. */
interface Record0 {
  readonly type: string;
  readonly codes: number[];
  readonly values: string[];
}

/** The records of one section, or why there are none. */
const recordsIn = (lines: readonly string[], section: string): Record0[] | string => {
  const records: Record0[] = [];
  let inside = false;
  let found = false;
  let last: Record0 | undefined;
  let awaitsName = false;
  for (let i = 0; i + 1 < lines.length; i += 2) {
    const code = Number(lines[i]);
    const value = (lines[i + 1] as string).trim();
    if (!Number.isInteger(code) || lines[i]?.trim() === '') return `line ${i + 1} should be a group code`;
    if (code === 0) {
      if (value === 'EOF') return found ? records : `it has no ${section} section`;
      awaitsName = value === 'SECTION';
      if (value === 'ENDSEC') inside = false;
      last = { type: value, codes: [], values: [] };
      if (inside) records.push(last);
    } else if (awaitsName && code === 2) {
      awaitsName = false;
      inside = value === section;
      found ||= inside;
    } else if (inside && last !== undefined) {
      last.codes.push(code);
      last.values.push(value);
    }
  }
  return found ? 'it is cut off before its end' : 'it is no DXF text';
};

/** Codes of `$INSUNITS` (DXF Reference, header variables) as millimetres. */
const UNITS: Readonly<Record<string, { readonly name: string; readonly mm: number }>> = {
  1: { name: 'inches', mm: MM_PER_INCH },
  2: { name: 'feet', mm: 12 * MM_PER_INCH },
  4: { name: 'millimetres', mm: 1 },
  5: { name: 'centimetres', mm: 10 },
  6: { name: 'metres', mm: 1000 },
};

const UNSTATED = { mm: { name: 'no unit, read as millimetres', mm: 1 }, inch: { name: 'no unit, read as inches', mm: MM_PER_INCH } };

const unitOf = (lines: readonly string[], unstated: UnstatedUnit): { readonly name: string; readonly mm: number } => {
  const at = lines.findIndex((line) => line.trim() === '$INSUNITS');
  return (at < 0 ? undefined : UNITS[lines[at + 2]?.trim() ?? '']) ?? UNSTATED[unstated];
};

const entitiesOf = (records: readonly Record0[], mm: number): DxfEntity[] | undefined => {
  const entities: DxfEntity[] = [];
  for (let i = 0; i < records.length; i++) {
    const record = records[i] as Record0;
    if (record.type !== 'POLYLINE') {
      entities.push(...entityOf(record, mm));
      continue;
    }
    const vertices: Vertex[] = [];
    for (i++; records[i]?.type === 'VERTEX'; i++) {
      const v = records[i] as Record0;
      vertices.push({ x: mm * num(v, 10), y: mm * num(v, 20), bulge: num(v, 42) });
    }
    entities.push(...polyline(record, vertices));
  }
  return entities.every(isSound) ? entities : undefined;
};

/** Farther than any sheet, and near enough for its square to be a number. */
const FARTHEST_MM = 1e9;

const isSound = (e: DxfEntity): boolean => {
  const near = (...numbers: readonly number[]): boolean => numbers.every((n) => Math.abs(n) < FARTHEST_MM);
  switch (e.kind) {
    case 'loop':
      return e.loop.every((v) => near(v.x, v.y, v.bulge));
    case 'circle':
      return near(...e.centre, e.radius);
    case 'piece':
      return near(...e.piece.from, ...e.piece.to, e.piece.bulge);
    case 'text':
    case 'unread':
      return true;
  }
};

const textAt = (r: Record0, code: number): string | undefined => {
  const at = r.codes.indexOf(code);
  return at < 0 ? undefined : r.values[at];
};

const num = (r: Record0, code: number): number => {
  const text = textAt(r, code);
  if (text === undefined) return 0;
  return text === '' ? Number.NaN : Number(text);
};

const layerOf = (r: Record0): string => textAt(r, 8) ?? '0';

/** Drawn on the back of its plane, as programs do when they mirror: x runs the other way. */
const isTurned = (r: Record0): boolean => num(r, 230) < 0;

const entityOf = (r: Record0, mm: number): DxfEntity[] => {
  const layer = layerOf(r);
  switch (r.type) {
    case 'LWPOLYLINE':
      return polyline(r, lightVertices(r, mm));
    case 'LINE':
      return [{ kind: 'piece', layer, piece: { from: [mm * num(r, 10), mm * num(r, 20)], to: [mm * num(r, 11), mm * num(r, 21)], bulge: 0 } }];
    case 'CIRCLE':
      return [{ kind: 'circle', layer, centre: centreOf(r, mm), radius: mm * num(r, 40) }];
    case 'ARC':
      return [arcEntity(r, mm)];
    case 'TEXT':
    case 'MTEXT':
      return [{ kind: 'text', layer }];
    case 'SEQEND':
    case 'ENDSEC':
      return [];
    default:
      return [{ kind: 'unread', layer, type: r.type }];
  }
};

const centreOf = (r: Record0, mm: number): Vec2 => [(isTurned(r) ? -mm : mm) * num(r, 10), mm * num(r, 20)];

/** An arc runs counter-clockwise from its first angle to its second. */
const arcEntity = (r: Record0, mm: number): DxfEntity => {
  const [layer, radius, centre] = [layerOf(r), mm * num(r, 40), centreOf(r, mm)];
  const turn = num(r, 51) - num(r, 50);
  const sweep = turn - 360 * Math.floor(turn / 360);
  if (sweep < 1e-9 || sweep > 360 - 1e-9) return { kind: 'circle', layer, centre, radius };
  const side = isTurned(r) ? -1 : 1;
  const at = (deg: number): Vec2 => [centre[0] + side * radius * Math.cos((deg * Math.PI) / 180), centre[1] + radius * Math.sin((deg * Math.PI) / 180)];
  return { kind: 'piece', layer, piece: { from: at(num(r, 50)), to: at(num(r, 51)), bulge: side * Math.tan((sweep * Math.PI) / 720) } };
};

/** Each vertex of a light polyline begins with its x; the bulge that follows is its own. */
const lightVertices = (r: Record0, mm: number): Vertex[] => {
  const vertices: { x: number; y: number; bulge: number }[] = [];
  r.codes.forEach((code, i) => {
    const value = Number(r.values[i] === '' ? Number.NaN : r.values[i]);
    const last = vertices.at(-1);
    if (code === 10) vertices.push({ x: mm * value, y: 0, bulge: 0 });
    else if (code === 20 && last !== undefined) last.y = mm * value;
    else if (code === 42 && last !== undefined) last.bulge = value;
  });
  return vertices;
};

/** Closed when bit 1 of group 70 says so; otherwise pieces that may close with others. */
const polyline = (r: Record0, given: readonly Vertex[]): DxfEntity[] => {
  const vertices = isTurned(r) ? given.map((v) => ({ x: -v.x, y: v.y, bulge: -v.bulge })) : given;
  const layer = layerOf(r);
  if ((num(r, 70) & 1) === 1) return [{ kind: 'loop', layer, loop: vertices }];
  return vertices.slice(0, -1).map((v, i) => {
    const next = vertices[i + 1] as Vertex;
    return { kind: 'piece', layer, piece: { from: [v.x, v.y], to: [next.x, next.y], bulge: v.bulge } };
  });
};
