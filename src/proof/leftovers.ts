import type { Oddity, Stroke } from '../dxf/read/explode.ts';
import { layerKey } from '../dxf/read/layers.ts';
import { printable } from '../dxf/read/printable.ts';

/** What stands in a file besides the lines that are cut and folded. */
export interface Leftovers {
  /**
   * Types of entities on the layers of cuts and folds that draw no line, or none that can be read.
   */
  readonly unread: readonly string[];
  /** Types of entities, on any layer, that are read and never cut: areas, bodies and dimensions. */
  readonly noLines: readonly string[];
  /** Layers that are not ours, with something to cut on them. */
  readonly strange: readonly string[];
  /**
   * What is hidden on the layers of cuts and folds: off, frozen, invisible, or on a sheet of paper.
   */
  readonly hidden: readonly HiddenLines[];
  /** Layers that are not ours and are off or frozen. */
  readonly strangeHidden: readonly string[];
  /** Types of entities on the layers of cuts and folds that rise out of the plane of the sheet. */
  readonly tilted: readonly string[];
}

export interface HiddenLines {
  readonly layer: string;
  readonly why: 'paper' | 'hidden';
  readonly count: number;
}

/**
 * Layers that are read but not cut; `DEFPOINTS` is never plotted (DXF Reference; ezdxf
 * documentation).
 */
const SILENT = new Set(['NOTE', 'MARK', 'DEFPOINTS']);
const TEXTS = new Set(['TEXT', 'MTEXT', 'ATTRIB', 'ATTDEF']);

/**
 * Blocks are taken apart, and curves by points are run through. Height over the sheet and the drawn
 * width of a line mean nothing to a cutter.
 */
const MEANS_NOTHING: ReadonlySet<Oddity['why']> = new Set([
  'block',
  'above the sheet',
  'wide',
  'by points',
]);

export const leftoversOf = (
  layers: ReadonlyMap<string, readonly Stroke[]>,
  oddities: readonly Oddity[],
  known: readonly string[],
): Leftovers => {
  const odd = oddities.filter(({ why, type }) => !TEXTS.has(type) && !MEANS_NOTHING.has(why));
  const isNoLine = ({ why }: Oddity): boolean => why === 'solid' || why === 'text';
  const told = odd.filter((o) => !isNoLine(o));
  const [ours, others] = [
    told.filter((o) => known.includes(layerKey(o.layer))),
    told.filter((o) => !known.includes(layerKey(o.layer)) && !SILENT.has(layerKey(o.layer))),
  ];
  const strange = [...layers.keys()].filter((key) => !known.includes(key) && !SILENT.has(key));
  return {
    unread: unique([
      ...ours.filter((o) => isSeen(o) && o.why !== 'not flat').map((o) => o.type),
      ...curvedFolds(layers),
    ]),
    noLines: unique(
      odd.filter((o) => isNoLine(o) && !SILENT.has(layerKey(o.layer))).map((o) => o.type),
    ),
    strange: unique([...strange, ...others.filter(isSeen).map((o) => layerKey(o.layer))]),
    hidden: hiddenOf(ours),
    strangeHidden: unique(others.filter((o) => o.why === 'hidden').map((o) => layerKey(o.layer))),
    tilted: unique(ours.filter((o) => o.why === 'not flat').map((o) => o.type)),
  };
};

const isSeen = ({ why }: Oddity): boolean => why !== 'paper' && why !== 'hidden';

/** Types of entities that cannot be folded along. */
const curvedFolds = (layers: ReadonlyMap<string, readonly Stroke[]>): string[] =>
  [...layers].flatMap(([key, on]) =>
    key.startsWith('FOLD-')
      ? on
          .filter(({ primitive }) => primitive.kind !== 'piece' || primitive.piece.bulge !== 0)
          .map((s) => s.type)
      : [],
  );

/** Names from the file, made safe for a message. */
const unique = (names: readonly string[]): string[] => [...new Set(names.map(printable))];

const hiddenOf = (oddities: readonly Oddity[]): HiddenLines[] => {
  const found = new Map<string, HiddenLines>();
  for (const { layer, why, count } of oddities) {
    if (why !== 'paper' && why !== 'hidden') continue;
    const key = layerKey(layer);
    const known = found.get(`${key} ${why}`);
    found.set(`${key} ${why}`, { layer: key, why, count: count + (known?.count ?? 0) });
  }
  return [...found.values()];
};
