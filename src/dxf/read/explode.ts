import { type Affine, inTurn, isAtRest, scaling, shifting, turning } from './affine.ts';
import { drawnBy, isSound } from './entity.ts';
import { type Concealed, layerKey, layerOf } from './layers.ts';
import { mapped, type Primitive } from './primitive.ts';
import { printable } from './printable.ts';
import { type DxfRecord, numberAt, textAt } from './records.ts';
import { refuse } from './refusal.ts';
import { type Doubt, OTHER_PLANE, planeOf } from './lying.ts';
import { type Block, blocksOf } from './blocks.ts';
import { TEXTS, type WrittenText, writtenText } from './written-text.ts';

/** A line of the drawing, in mm, with the entity that it comes from. */
export interface Stroke {
  readonly primitive: Primitive;
  readonly layer: string;
  /** Number of the entity in the drawing; the lines that one entity draws are connected. */
  readonly entity: number;
  readonly type: string;
}

/**
 * Entities of one sort on one layer that are not lines, or are lines that cannot be cut as they
 * stand.
 */
export interface Oddity {
  readonly type: string;
  readonly layer: string;
  readonly why:
    'text' | 'block' | 'paper' | 'hidden' | 'point' | 'solid' | 'bad' | 'depth' | 'unknown' | Doubt;
  /** What is wrong with it, or the name of its block as it stands in the file. */
  readonly detail: string;
  /** Place of the first one, mm. */
  readonly at?: readonly [number, number];
  readonly count: number;
}

export interface Exploded {
  readonly strokes: readonly Stroke[];
  /** Texts that are seen, as far as they are read; they are not cut. */
  readonly texts: readonly WrittenText[];
  readonly oddities: readonly Oddity[];
}

/** The most levels of blocks within blocks; drawings of machines have a few. */
const DEEPEST = 16;
/**
 * The most lines. A drawing for a cutter has some thousand; the time for joining and comparing them
 * grows with their number.
 */
const MOST_STROKES = 100_000;
/** The most texts that are kept; more of them hide a drawing. */
const MOST_TEXTS = 1000;
/** The most copies of blocks, because copies of empty blocks take time as well. */
const MOST_COPIES = 1_000_000;
/** The most entities, those of copied blocks counted at every copy. */
const MOST_LOOKED_AT = 3_000_000;
/**
 * A coordinate beyond this, mm, is an error of the file: it is more than twice the circumference of
 * the earth, 4e10 mm.
 */
const FARTHEST_MM = 1e11;

const SOLIDS = new Set([
  '3DFACE',
  '3DSOLID',
  'BODY',
  'REGION',
  'SOLID',
  'TRACE',
  'MESH',
  'SURFACE',
  'EXTRUDEDSURFACE',
  'LOFTEDSURFACE',
  'REVOLVEDSURFACE',
  'SWEPTSURFACE',
  'PLANESURFACE',
  'HATCH',
  'MPOLYGON',
  'HELIX',
  'POLYLINE',
]);
const SILENT = new Set(['SEQEND', 'VERTEX', 'ENDBLK', 'BLOCK', 'VIEWPORT', 'ACAD_PROXY_OBJECT']);

/**
 * Why something is not drawn: it stands on a layer that is off or frozen, or on a sheet of paper
 * beside the model.
 */
type Hiding = 'paper' | 'hidden';

/**
 * Layouts on paper are blocks of these names, except for the last one shown (DXF Reference,
 * BLOCK_RECORD).
 */
const PAPER = /^\*PAPER_SPACE/;

/**
 * Draws the entities of a file, with blocks taken apart; `mm` is the length of its unit. What is
 * not seen is reported and left out.
 */
export const explode = (
  entities: readonly DxfRecord[],
  blocks: readonly DxfRecord[],
  concealed: ReadonlyMap<string, Concealed>,
  mm: number,
): Exploded => {
  const known = blocksOf(blocks);
  const drawing = new Drawing(known, concealed);
  const place: Place = { map: scaling(mm, mm), depth: 0, layer: undefined, hiding: undefined };
  drawing.draw(entities, place);
  for (const [name, block] of known)
    if (PAPER.test(name)) drawing.draw(block.entities, { ...place, hiding: 'paper' });
  return {
    strokes: drawing.strokes,
    texts: drawing.texts,
    oddities: [...drawing.oddities.values()],
  };
};

/** The report on a line that has a coordinate which is no number, or one out of range. */
export const NO_PLACE = 'holds a coordinate that is no number, or one beyond any sheet';

interface Place {
  readonly map: Affine;
  readonly depth: number;
  /** Layer of the insert; what a block draws on layer 0 lies on it. */
  readonly layer: string | undefined;
  readonly hiding: Hiding | undefined;
}

type Odd = (why: Oddity['why'], detail?: string) => void;

class Drawing {
  readonly strokes: Stroke[] = [];
  readonly texts: WrittenText[] = [];
  readonly oddities = new Map<string, Oddity & { count: number }>();
  private readonly blocks: ReadonlyMap<string, Block>;
  private readonly concealed: ReadonlyMap<string, Concealed>;
  private count = 0;
  private copies = 0;
  private lookedAt = 0;

  constructor(blocks: ReadonlyMap<string, Block>, concealed: ReadonlyMap<string, Concealed>) {
    this.blocks = blocks;
    this.concealed = concealed;
  }

  draw(records: readonly DxfRecord[], place: Place): void {
    for (let i = 0; i < records.length; i++) {
      const record = records[i] as DxfRecord;
      const vertices = record.type === 'POLYLINE' ? verticesAfter(records, i) : NONE;
      i += vertices.length;
      if (!SILENT.has(record.type)) this.drawOne(record, vertices, place);
    }
  }

  private drawOne(record: DxfRecord, vertices: readonly DxfRecord[], place: Place): void {
    if (++this.lookedAt > MOST_LOOKED_AT)
      refuse(
        `its blocks hold more than ${MOST_LOOKED_AT} things`,
        'explode the blocks that are needed, and leave the others out',
      );
    const own = layerOf(record);
    const layer = own === '0' && place.layer !== undefined ? place.layer : own;
    const { type } = record;
    const odd: Odd = (why, detail = '') =>
      this.odd({ type, layer, why, detail }, record, place.map);
    const hiding = this.hidingOf(record, layer, place);
    if (type === 'INSERT') this.insert(record, { ...place, layer, hiding }, odd);
    else if (hiding !== undefined) odd(hiding);
    else if (TEXTS.has(type)) {
      odd('text');
      if (this.texts.length < MOST_TEXTS) this.texts.push(...writtenText(record, place.map));
    } else if (type === 'POINT') odd('point');
    else this.lines(record, vertices, place, layer, odd);
  }

  private odd(one: Omit<Oddity, 'count' | 'at'>, record: DxfRecord, map: Affine): void {
    const key = `${one.type}\n${one.layer}\n${one.why}\n${one.detail}`;
    const known = this.oddities.get(key);
    if (known !== undefined) {
      known.count += 1;
      return;
    }
    const at = placeOf(record, map);
    this.oddities.set(key, { ...one, count: 1, ...(at === undefined ? {} : { at }) });
  }

  /**
   * A block on a layer that is off is still seen, except for what it draws on that layer itself
   * (from memory).
   */
  private hidingOf(record: DxfRecord, layer: string, { hiding }: Place): Hiding | undefined {
    if (hiding !== undefined) return hiding;
    if (numberAt(record, 67) === 1) return 'paper';
    const concealed = this.concealed.get(layerKey(layer));
    return numberAt(record, 60) === 1 ||
      concealed === 'frozen' ||
      (concealed === 'off' && record.type !== 'INSERT')
      ? 'hidden'
      : undefined;
  }

  private lines(
    record: DxfRecord,
    vertices: readonly DxfRecord[],
    { map }: Place,
    layer: string,
    odd: Odd,
  ): void {
    const drawn = drawnBy(record, vertices);
    const { type } = record;
    if (drawn.kind === 'none') return odd(SOLIDS.has(type) ? 'solid' : 'unknown');
    if (drawn.kind === 'bad') return odd('bad', drawn.why);
    const primitives = isAtRest(map)
      ? drawn.primitives
      : drawn.primitives.map((p) => mapped(map, p));
    if (!primitives.every((p) => isSound(p, FARTHEST_MM))) return odd('bad', NO_PLACE);
    if (type !== 'LINE' && primitives.length === 0) return odd('bad', 'has no length');
    for (const doubt of drawn.doubts) odd(doubt);
    const entity = this.count++;
    for (const primitive of primitives) this.strokes.push({ primitive, layer, entity, type });
    if (this.strokes.length > MOST_STROKES)
      refuse(
        `it draws more than ${MOST_STROKES} lines and arcs`,
        'leave pictures, hatches and other parts out, or draw curves as arcs',
      );
  }

  private insert(record: DxfRecord, place: Place, odd: Odd): void {
    const name = textAt(record, 2) ?? '';
    const block = this.blocks.get(name.toUpperCase());
    const plane = planeOf(record);
    if (
      place.hiding !== undefined &&
      (block === undefined || plane === undefined || place.depth >= DEEPEST)
    )
      return odd(place.hiding);
    if (block === undefined)
      return odd('bad', `puts in the block '${printable(name)}', which is not in the file`);
    if (place.depth >= DEEPEST) return odd('depth');
    if (plane === undefined) return odd('bad', OTHER_PLANE);
    if (place.hiding === undefined) odd('block', name);
    const [columns, rows] = [times(record, 70), times(record, 71)];
    this.copies += columns * rows;
    if (!(this.copies <= MOST_COPIES))
      refuse(
        `its blocks are put in more than ${MOST_COPIES} times`,
        'explode the blocks that are needed, and leave the others out',
      );
    const [sx, sy] = [numberAt(record, 41, 1), numberAt(record, 42, 1)];
    const base = shifting(-numberAt(block.head, 10), -numberAt(block.head, 20));
    for (let k = 0; k < columns * rows; k++) {
      const step = shifting(
        (k % columns) * numberAt(record, 44),
        Math.floor(k / columns) * numberAt(record, 45),
      );
      const map = inTurn(
        place.map,
        plane,
        shifting(numberAt(record, 10), numberAt(record, 20)),
        turning(numberAt(record, 50)),
        step,
        scaling(sx, sy),
        base,
      );
      this.draw(block.entities, { ...place, map, depth: place.depth + 1 });
    }
  }
}

const NONE: readonly DxfRecord[] = [];

/** The corners of a heavy polyline, which follow it as entities of their own. */
const verticesAfter = (records: readonly DxfRecord[], at: number): DxfRecord[] => {
  let end = at + 1;
  while (records[end]?.type === 'VERTEX') end += 1;
  return records.slice(at + 1, end);
};

const times = (record: DxfRecord, code: number): number => {
  const n = numberAt(record, code, 1);
  return Number.isInteger(n) && n > 1 ? n : 1;
};

const placeOf = (record: DxfRecord, map: Affine): readonly [number, number] | undefined => {
  const [x, y] = [numberAt(record, 10), numberAt(record, 20)];
  const at: [number, number] = [map.a * x + map.c * y + map.e, map.b * x + map.d * y + map.f];
  return at.every((n) => Math.abs(n) <= FARTHEST_MM) ? at : undefined;
};
