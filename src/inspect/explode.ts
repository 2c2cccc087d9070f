import { type Affine, inTurn, scaling, shifting, turning } from './affine.ts';
import { type Doubt, drawnBy, isSound, layerOf, planeOf } from './entity.ts';
import { mapped, type Primitive } from './primitive.ts';
import { type DxfRecord, numberAt, textAt } from './records.ts';
import { refuse } from './refusal.ts';

/** A line of the drawing, in mm, with the entity that it comes from. */
export interface Stroke {
  readonly primitive: Primitive;
  readonly layer: string;
  /** Counts the entities of the drawing; what one entity draws hangs together. */
  readonly entity: number;
  readonly type: string;
}

/** What is not a line, or not one that can be cut as it stands: all of one sort on one layer. */
export interface Oddity {
  readonly type: string;
  readonly layer: string;
  readonly why: 'text' | 'block' | 'paper' | 'hidden' | 'point' | 'solid' | 'bad' | 'depth' | 'unknown' | Doubt;
  readonly detail?: string;
  /** Of the first of them. */
  readonly at?: readonly [number, number];
  readonly count: number;
}

export interface Exploded {
  readonly strokes: readonly Stroke[];
  readonly oddities: readonly Oddity[];
}

/** Blocks within blocks; drawings of machines nest some few. */
const DEEPEST = 16;
/** A drawing for a cutter has some thousand lines; joining and comparing them takes time with their number. */
export const MOST_STROKES = 100_000;
/** Copies of empty blocks cost time too. */
const MOST_COPIES = 1_000_000;
const MOST_LOOKED_AT = 3_000_000;
/** Farther than any sheet, mm, and near enough for its square to be a number. */
export const FARTHEST_MM = 1e7;

const TEXTS = new Set(['TEXT', 'MTEXT', 'ATTRIB', 'ATTDEF', 'DIMENSION', 'LEADER', 'MULTILEADER', 'MLEADER', 'TOLERANCE', 'ARCALIGNEDTEXT', 'RTEXT', 'ACAD_TABLE']);
const SOLIDS = new Set(['3DFACE', '3DSOLID', 'BODY', 'REGION', 'SOLID', 'TRACE', 'MESH', 'SURFACE', 'EXTRUDEDSURFACE', 'LOFTEDSURFACE', 'REVOLVEDSURFACE', 'SWEPTSURFACE', 'PLANESURFACE', 'HATCH', 'MPOLYGON', 'HELIX', 'POLYLINE']);
const SILENT = new Set(['SEQEND', 'VERTEX', 'ENDBLK', 'BLOCK', 'VIEWPORT', 'ACAD_PROXY_OBJECT']);

/** Draws the entities of a file, blocks taken apart; `mm` is the length of its unit. */
export const explode = (entities: readonly DxfRecord[], blocks: readonly DxfRecord[], hidden: ReadonlySet<string>, mm: number): Exploded => {
  const drawing = new Drawing(blocksOf(blocks), hidden);
  drawing.draw(entities, { map: scaling(mm, mm), depth: 0, layer: undefined });
  return { strokes: drawing.strokes, oddities: [...drawing.oddities.values()] };
};

interface Block {
  readonly head: DxfRecord;
  readonly entities: DxfRecord[];
}

const blocksOf = (records: readonly DxfRecord[]): ReadonlyMap<string, Block> => {
  const blocks = new Map<string, Block>();
  let open: Block | undefined;
  for (const record of records) {
    if (record.type === 'BLOCK') {
      open = { head: record, entities: [] };
      blocks.set((textAt(record, 2) ?? '').toUpperCase(), open);
    } else if (record.type === 'ENDBLK') open = undefined;
    else open?.entities.push(record);
  }
  return blocks;
};

interface Place {
  readonly map: Affine;
  readonly depth: number;
  /** Of the insert: what a block draws on layer 0 lies on it. */
  readonly layer: string | undefined;
}

class Drawing {
  readonly strokes: Stroke[] = [];
  readonly oddities = new Map<string, Oddity>();
  private readonly blocks: ReadonlyMap<string, Block>;
  private readonly hidden: ReadonlySet<string>;
  private count = 0;
  private copies = 0;
  private lookedAt = 0;

  constructor(blocks: ReadonlyMap<string, Block>, hidden: ReadonlySet<string>) {
    this.blocks = blocks;
    this.hidden = hidden;
  }

  draw(records: readonly DxfRecord[], place: Place): void {
    for (let i = 0; i < records.length; i++) {
      const record = records[i] as DxfRecord;
      const vertices: DxfRecord[] = [];
      if (record.type === 'POLYLINE') while (records[i + 1]?.type === 'VERTEX') vertices.push(records[++i] as DxfRecord);
      if (!SILENT.has(record.type)) this.drawOne(record, vertices, place);
    }
  }

  private drawOne(record: DxfRecord, vertices: readonly DxfRecord[], place: Place): void {
    if (++this.lookedAt > MOST_LOOKED_AT) refuse(`its blocks hold more than ${MOST_LOOKED_AT} things`, 'explode the blocks that are needed, and leave the others out');
    const own = layerOf(record);
    const layer = own === '0' && place.layer !== undefined ? place.layer : own;
    const { type } = record;
    const odd = (why: Oddity['why'], detail?: string): void => {
      const key = JSON.stringify([type, layer, why, detail]);
      const known = this.oddities.get(key);
      const at = known === undefined ? placeOf(record, place.map) : known.at;
      this.oddities.set(key, { type, layer, why, count: 1 + (known?.count ?? 0), ...(detail === undefined ? {} : { detail }), ...(at === undefined ? {} : { at }) });
    };
    if (numberAt(record, 67) === 1) odd('paper');
    else if (this.hidden.has(layer) || numberAt(record, 60) === 1) odd('hidden');
    else if (type === 'INSERT') this.insert(record, { ...place, layer }, odd);
    else if (TEXTS.has(type)) odd('text');
    else if (type === 'POINT') odd('point');
    else this.lines(record, vertices, place, layer, odd);
  }

  private lines(record: DxfRecord, vertices: readonly DxfRecord[], { map }: Place, layer: string, odd: (why: Oddity['why'], detail?: string) => void): void {
    const drawn = drawnBy(record, vertices);
    const { type } = record;
    if (drawn.kind === 'none') return odd(SOLIDS.has(type) ? 'solid' : 'unknown');
    if (drawn.kind === 'bad') return odd('bad', drawn.why);
    const primitives = drawn.primitives.map((p) => mapped(map, p));
    if (!primitives.every((p) => isSound(p, FARTHEST_MM))) return odd('bad', 'holds a coordinate that is no number, or one beyond any sheet');
    if (type !== 'LINE' && primitives.length === 0) return odd('bad', 'has no length');
    for (const doubt of drawn.doubts) odd(doubt);
    const entity = this.count++;
    for (const primitive of primitives) this.strokes.push({ primitive, layer, entity, type });
    if (this.strokes.length > MOST_STROKES) refuse(`it draws more than ${MOST_STROKES} lines and arcs`, 'leave pictures, hatches and other parts out, or draw curves as arcs');
  }

  private insert(record: DxfRecord, place: Place, odd: (why: Oddity['why'], detail?: string) => void): void {
    const name = textAt(record, 2) ?? '';
    const block = this.blocks.get(name.toUpperCase());
    if (block === undefined) return odd('bad', `puts in the block '${name}', which is not in the file`);
    if (place.depth >= DEEPEST) return odd('depth');
    const plane = planeOf(record);
    if (plane === undefined) return odd('bad', 'lies in a plane that is not that of the sheet');
    odd('block', name);
    const [columns, rows] = [times(record, 70), times(record, 71)];
    this.copies += columns * rows;
    if (!(this.copies <= MOST_COPIES)) refuse(`its blocks are put in more than ${MOST_COPIES} times`, 'explode the blocks that are needed, and leave the others out');
    const [sx, sy] = [numberAt(record, 41, 1), numberAt(record, 42, 1)];
    const base = shifting(-numberAt(block.head, 10), -numberAt(block.head, 20));
    for (let k = 0; k < columns * rows; k++) {
      const step = shifting((k % columns) * numberAt(record, 44), Math.floor(k / columns) * numberAt(record, 45));
      const map = inTurn(place.map, plane, shifting(numberAt(record, 10), numberAt(record, 20)), turning(numberAt(record, 50)), step, scaling(sx, sy), base);
      this.draw(block.entities, { ...place, map, depth: place.depth + 1 });
    }
  }
}

const times = (record: DxfRecord, code: number): number => {
  const n = numberAt(record, code, 1);
  return Number.isInteger(n) && n > 1 ? n : 1;
};

const placeOf = (record: DxfRecord, map: Affine): readonly [number, number] | undefined => {
  const [x, y] = [numberAt(record, 10), numberAt(record, 20)];
  const at: [number, number] = [map.a * x + map.c * y + map.e, map.b * x + map.d * y + map.f];
  return at.every((n) => Math.abs(n) <= FARTHEST_MM) ? at : undefined;
};
