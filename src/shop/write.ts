import { Document, isCollection, isMap, isNode, isScalar, isSeq, type Node, visit } from 'yaml';
import { fitLines, TERMINAL_COLUMNS } from '../text/columns.ts';
import { DEFAULT_SHOP_SOURCES, type FigureSources } from '../data/shop-default.ts';
import { isAssumedIn, type Shop, type ShopPart } from '../model/shop.ts';
import { isSourced, machineEntry } from './machine-entry.ts';

/**
 * A shop as its file holds it, and the sources of its figures, each by the path of the figure:
 * `cutters[0].kerf`.
 */
export interface ShopEntries {
  readonly entries: Readonly<Record<string, unknown>>;
  readonly sources: FigureSources;
  /** Of every figure of a machine whether the shop says it itself. */
  readonly basis: Readonly<Record<string, 'measured' | 'assumed'>>;
}

/**
 * The sources of figures of a shop that do not carry their own: those of the parts that are the
 * built-in shop's, by the path of the figure.
 */
export const sourcesOf = (shop: Shop): FigureSources =>
  Object.fromEntries(
    Object.entries(DEFAULT_SHOP_SOURCES).filter(([path]) =>
      isAssumedIn(shop, /^\w+/.exec(path)?.[0] as ShopPart),
    ),
  );

/**
 * Takes a shop apart. `others` are the sources of figures that do not carry their own; the shop's
 * own figures have none.
 */
export function shopEntries(
  {
    machines,
    name,
    cutters,
    sheets,
    remnants,
    marking,
    handover,
    weldGap,
    bends,
    benders,
    tubeStock,
    rolls,
  }: Shop,
  others: FigureSources,
): ShopEntries {
  const sources: Record<string, FigureSources[string]> = {};
  const basis: Record<string, 'measured' | 'assumed'> = {};
  const bare = (value: unknown, path: string): unknown => {
    if (isSourced(value)) {
      basis[path] = value.basis === 'measured' ? 'measured' : 'assumed';
      if (value.basis !== 'measured') sources[path] = { basis: value.basis, source: value.source };
      return value.value;
    }
    if (Array.isArray(value)) return value.map((item, i) => bare(item, `${path}[${i}]`));
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(
      Object.entries(value).map(([key, item]) => [
        key,
        bare(item, path === '' ? key : `${path}.${key}`),
      ]),
    );
  };
  const entries = bare(
    {
      name,
      folders: machines.filter((m) => m.kind === 'folder').map(machineEntry),
      pressBrakes: machines.filter((m) => m.kind === 'press brake').map(machineEntry),
      cutters,
      sheets,
      remnants,
      marking,
      handover,
      weldGap,
      bends,
      ...(benders !== undefined && { benders }),
      ...(tubeStock !== undefined && { tubeStock }),
      ...(rolls !== undefined && { rolls }),
    },
    '',
  );
  return { entries: entries as ShopEntries['entries'], sources: { ...sources, ...others }, basis };
}

/**
 * The text of a shop file, which reads back as the same shop. Sources are written as comments above
 * their figures, and of those of machines whether they are measured or assumed.
 */
export function writeShop({ entries, sources, basis }: ShopEntries, heading: string): string {
  const document = new Document(entries);
  document.commentBefore = comment(heading);
  layOut(document);
  for (const [path, { basis: how, source }] of Object.entries(sources)) {
    const told = source.startsWith(how) ? source : `${how}: ${source}`;
    remarkOn(document, path, basis[path] === undefined ? told : `assumed, ${told}`);
  }
  for (const [path, how] of Object.entries(basis))
    if (how === 'measured') remarkOn(document, path, how);
  return document.toString({ lineWidth: TERMINAL_COLUMNS });
}

/** Lays the entries of a file out: what holds bare values alone stands on one line. */
export const layOut = (node: Document | Node): void => {
  visit(node, {
    Collection: (key, inner) => {
      if (key !== null && isPlain(inner)) inner.flow = true;
    },
  });
};

/** Whether a node fits on one line: it holds bare values, or points of polygons. */
const isPlain = (node: Node): boolean => {
  if (!isCollection(node)) return true;
  const inner = isMap(node) ? node.items.map((pair) => pair.value) : node.items;
  return inner.every((item) => isScalar(item) || (isSeq(node) && isSeq(item) && isPlain(item)));
};

function remarkOn(document: Document, path: string, remark: string): void {
  const steps = path
    .split(/[.[\]]+/)
    .filter((step) => step !== '')
    .map((step) => (/^\d+$/.test(step) ? Number(step) : step));
  const map = steps.length === 1 ? document.contents : document.getIn(steps.slice(0, -1), true);
  const key = isMap(map)
    ? map.items.map((pair) => pair.key).find((k) => isScalar(k) && k.value === steps.at(-1))
    : undefined;
  if (!isNode(key)) throw new Error(`the shop has no ${path}`);
  key.commentBefore = comment(remark);
}

/** Comments stand no deeper than this. */
const DEEPEST = 8;

/** A comment in lines that fit a terminal, however deep it stands. */
const comment = (text: string): string =>
  fitLines(` ${text}`, TERMINAL_COLUMNS - DEEPEST).replace(/\n +/g, '\n ');
