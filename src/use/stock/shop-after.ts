import {
  type Document,
  isAlias,
  isMap,
  isNode,
  isSeq,
  parseDocument,
  type YAMLMap,
  YAMLSeq,
} from 'yaml';
import type { Remnant } from '../../model/sheets.ts';
import { layOut } from '../../shop/write.ts';

/** What changes in the stock of a shop file; places are those in its lists, from 0. */
export interface StockChange {
  /** New counts of sheets by their places. */
  readonly counts: ReadonlyMap<number, number>;
  /** Places of the remnants that are used up. */
  readonly gone: readonly number[];
  readonly added: readonly Remnant[];
}

/**
 * The text of a shop file with its stock changed, everything else as it was, comments too. A file
 * in JSON stays one.
 */
export const shopAfter = (text: string, change: StockChange): string => {
  const json = jsonIn(text);
  return json === undefined ? inYaml(text, change) : inJson(json, change);
};

type Entries = Readonly<Record<string, unknown>>;

/** What a text in JSON holds; a shop was read from it before. */
const jsonIn = (text: string): Entries | undefined => {
  try {
    return JSON.parse(text) as Entries;
  } catch {
    return undefined;
  }
};

const inJson = (file: Entries, { counts, gone, added }: StockChange): string => {
  const listIn = (part: string): readonly Entries[] => (file[part] ?? []) as readonly Entries[];
  const sheets = listIn('sheets').map((sheet, i) =>
    counts.has(i) ? { ...sheet, count: counts.get(i) } : sheet,
  );
  const remnants = [...listIn('remnants').filter((_, i) => !gone.includes(i)), ...added];
  const after = {
    ...file,
    ...(file['sheets'] !== undefined && { sheets }),
    ...((file['remnants'] !== undefined || remnants.length > 0) && { remnants }),
  };
  return `${JSON.stringify(after, null, 2)}\n`;
};

const inYaml = (text: string, { counts, gone, added }: StockChange): string => {
  const document: Document = parseDocument(text);
  for (const [place, count] of counts) mapAt(document, place).set('count', count);
  const remnants = remnantsIn(document);
  for (const place of gone.toSorted((a, b) => b - a)) remnants.items.splice(place, 1);
  if (remnants.items.length === 0 && added.length > 0) remnants.flow = false;
  for (const entry of added) remnants.add(nodeOf(document, entry));
  if (remnants.items.length === 0 && !document.has('remnants')) return document.toString(AS_IS);
  document.set('remnants', remnants);
  return document.toString(AS_IS);
};

const AS_IS = { lineWidth: 0 } as const;

/** The map of a sheet; one that repeats another becomes a map of its own. */
const mapAt = (document: Document, place: number): YAMLMap => {
  const found = document.getIn(['sheets', place], true);
  const node = isAlias(found) ? found.resolve(document)?.clone() : found;
  if (!isMap(node)) throw new Error(`the shop file has no sheet ${place}`);
  if (node !== found) {
    delete node.anchor;
    document.setIn(['sheets', place], node);
  }
  return node;
};

const remnantsIn = (document: Document): YAMLSeq => {
  const found = document.get('remnants', true) as unknown;
  const node = isAlias(found) ? found.resolve(document)?.clone() : found;
  return isSeq(node) ? node : new YAMLSeq(document.schema);
};

/** A rectangle stands on one line; of an outline each hole does. */
const nodeOf = (document: Document, entry: Remnant): YAMLMap => {
  const node = document.createNode(entry) as YAMLMap;
  layOut(node);
  if (isNode(node)) node.flow = entry.outline === undefined;
  return node;
};
