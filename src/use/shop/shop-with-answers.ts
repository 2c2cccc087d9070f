import { Document, isAlias, isMap, isNode, isScalar, isSeq, parseDocument, YAMLMap } from 'yaml';
import { sheet } from '../../shop/stock.ts';
import { layOut } from '../../shop/write.ts';

/** A figure as it stands in the file, and how it was found. */
export interface SaidFigure {
  /** Names from the machine down: `noseRadii`, or `fingers`, `widths`. */
  readonly path: readonly string[];
  readonly value: unknown;
  readonly remark?: string;
}

/** What was said of a machine: of one that the file has, or of a new one like a built-in one. */
export interface SaidMachine {
  readonly list: 'folders' | 'pressBrakes';
  /** Its place in the list of the file; `undefined` for a new one. */
  readonly index: number | undefined;
  /** Id of the built-in machine that a new one is like. */
  readonly like: string;
  readonly figures: readonly SaidFigure[];
}

/** A cutter in full, with remarks by the names of what is assumed of it. */
export interface SaidCutter {
  readonly entry: Readonly<Record<string, unknown>>;
  readonly remarks: Readonly<Record<string, string>>;
}

/** All that was said. */
export interface SaidShop {
  readonly machines: readonly SaidMachine[];
  readonly cutters: readonly SaidCutter[];
  readonly sheets: readonly Readonly<Record<string, unknown>>[] | undefined;
}

/**
 * The text of a shop file with what was said in it, everything else unchanged, comments too. Where
 * there is no file yet, it holds what was said alone: what it leaves out is the built-in shop's. A
 * shop of which brakes alone were named has no folders.
 *
 * @param text the file as it is, in order as a YAML document
 */
export function shopWithAnswers(text: string | undefined, said: SaidShop): string {
  const document: Document = text === undefined ? new Document({}) : parseDocument(text);
  if (text === undefined) document.commentBefore = HEADING;
  for (const machine of said.machines) putMachine(document, machine);
  const isBrakes = said.machines.some((m) => m.list === 'pressBrakes' && m.index === undefined);
  if (isBrakes && !document.has('folders')) document.set('folders', document.createNode([]));
  for (const { entry, remarks } of said.cutters) {
    const node = document.createNode(entry) as YAMLMap;
    layOut(node);
    for (const [name, remark] of Object.entries(remarks)) remarkOn(node, name, remark);
    append(document, 'cutters', node);
  }
  if (said.sheets !== undefined) putSheets(document, said.sheets);
  return document.toString({ lineWidth: 0 });
}

const HEADING =
  ' The shop as it was measured. What is left out here is as in the built-in shop, and assumed.';

function putMachine(document: Document, { list, index, like, figures }: SaidMachine): void {
  const node = index === undefined ? new YAMLMap() : mapAt(document, list, index);
  if (index === undefined) {
    node.set('like', like);
    append(document, list, node);
  }
  for (const { path, value, remark } of figures) {
    const holder = holderOf(document, node, path.slice(0, -1));
    const name = path.at(-1) as string;
    const figure = document.createNode(value);
    if (isSeq(figure) || isMap(figure)) figure.flow = true;
    if (remark !== undefined) figure.comment = ` ${remark}`;
    holder.set(name, figure);
    noLongerAssumed(node, name);
  }
}

/** Takes a figure that is measured now off the list of those that were not. */
function noLongerAssumed(node: YAMLMap, name: string): void {
  const assumed = node.get('assumed', true) as unknown;
  if (isSeq(assumed))
    assumed.items = assumed.items.filter((item) => !isScalar(item) || item.value !== name);
}

/** The map of a machine; one that stood there by its id alone becomes one that is like it. */
function mapAt(document: Document, list: string, index: number): YAMLMap {
  const found = document.getIn([list, index], true);
  const node = isAlias(found) ? found.resolve(document)?.clone() : found;
  if (isMap(node)) {
    if (node !== found) document.setIn([list, index], node);
    return node;
  }
  const map = new YAMLMap();
  map.set('like', isScalar(node) ? node.value : undefined);
  document.setIn([list, index], map);
  return map;
}

/** The map inside a machine that holds a figure, made where there is none. */
function holderOf(document: Document, node: YAMLMap, path: readonly string[]): YAMLMap {
  let holder = node;
  for (const name of path) {
    const inner = holder.get(name, true) as unknown;
    if (isMap(inner)) holder = inner;
    else {
      const made = document.createNode({}) as YAMLMap;
      holder.set(name, made);
      holder = made;
    }
  }
  return holder;
}

/**
 * The sheets that were said, in their order. One that the file has already stays as it stands
 * there, with its count, price and comments, of which nothing was asked.
 */
function putSheets(document: Document, said: NonNullable<SaidShop['sheets']>): void {
  const known = document.get('sheets', true) as unknown;
  const left = isSeq(known) ? [...known.items] : [];
  const items = said.map((one) => {
    const at = left.findIndex((item) => isNode(item) && isSameSheet(item.toJS(document), one));
    if (at >= 0) return left.splice(at, 1)[0];
    const node = document.createNode(one) as YAMLMap;
    node.flow = true;
    return node;
  });
  if (isSeq(known)) {
    if (known.items.length === 0) known.flow = false;
    known.items = items;
  } else document.set('sheets', document.createNode(items));
}

const isSameSheet = (given: unknown, said: Readonly<Record<string, unknown>>): boolean => {
  const [a, b] = [sheet.read(given), sheet.read(said)];
  return (
    a.ok &&
    b.ok &&
    (['length', 'width', 'thickness', 'material'] as const).every(
      (name) => a.value[name] === b.value[name],
    )
  );
};

function append(document: Document, list: string, node: YAMLMap): void {
  const known = document.get(list, true) as unknown;
  if (isSeq(known)) {
    if (known.items.length === 0) known.flow = false;
    known.add(node);
  } else document.set(list, document.createNode([node]));
}

function remarkOn(map: YAMLMap, name: string, remark: string): void {
  const key = map.items.map((pair) => pair.key).find((k) => isScalar(k) && k.value === name);
  if (isNode(key)) key.commentBefore = ` ${remark}`;
}
