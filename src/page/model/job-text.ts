import { Document, isMap, isScalar, isSeq, parseDocument, type YAMLMap } from 'yaml';

/**
 * Changes of a job file's text. Each takes the whole text and gives the whole text, and leaves
 * comments, order and whatever else is in it as they are. A text that is no YAML comes back
 * unchanged.
 */

/** What a person types into a field, or `undefined` where the entry is to go. */
export type Typed = string | boolean | undefined;

/** Steps from the top of the file to an entry. */
export type EntryPath = readonly (string | number)[];

/** The text of a job that has nothing in it yet. */
export const EMPTY_JOB = 'title: new job\n\nparts: []\n';

/** Sets one entry, or takes it out; the sections above it are made where they are missing. */
export const withEntry = (text: string, path: EntryPath, value: Typed): string => {
  const inPlace = splicedScalar(text, path, value);
  if (inPlace !== undefined) return inPlace;
  return edited(text, (document) => {
    if (value === undefined) removeAt(document, path);
    else {
      openUp(document, path.slice(0, -1));
      document.setIn(path, scalarOf(document, value));
    }
  });
};

/** Puts a whole section or list where an entry is. */
export const withValue = (text: string, path: EntryPath, value: unknown): string =>
  edited(text, (document) => {
    openUp(document, path.slice(0, -1));
    document.setIn(path, document.createNode(value));
  });

/** Sets an entry that is a list of lines; it goes where there are none. Lines that stay are not touched. */
export const withLines = (text: string, path: EntryPath, lines: readonly string[]): string => {
  if (lines.length === 0) return withEntry(text, path, undefined);
  const document = parseDocument(text, { logLevel: 'silent' });
  const before = document.errors.length > 0 ? undefined : document.getIn(path);
  const count = isSeq(before) ? before.items.length : 0;
  let next = text;
  for (let i = count - 1; i >= lines.length; i--) next = withEntry(next, [...path, i], undefined);
  for (const [i, line] of lines.entries()) next = withEntry(next, [...path, i], line);
  return next;
};

/** Adds a part behind the others. */
export const withPart = (text: string, part: Readonly<Record<string, unknown>>): string =>
  edited(text, (document) => {
    const parts = document.get('parts');
    if (!isSeq(parts)) document.set('parts', document.createNode([part]));
    else {
      // An empty list is written `[]`: what is put into it stands in lines of its own.
      parts.flow = false;
      parts.add(document.createNode(part));
    }
  });

export const withoutPart = (text: string, index: number): string =>
  edited(text, (document) => {
    document.deleteIn(['parts', index]);
  });

/** The same part once more, right behind itself, under another name. */
export const withCopy = (text: string, index: number, name: string): string =>
  edited(text, (document) => {
    const parts = document.get('parts');
    const part = isSeq(parts) ? parts.items[index] : undefined;
    if (!isSeq(parts) || !isMap(part)) return;
    const copy = part.clone() as YAMLMap;
    copy.set('name', name);
    copy.commentBefore = null;
    parts.items.splice(index + 1, 0, copy);
  });

/** The part moved to another place of the list. */
export const withMove = (text: string, from: number, to: number): string =>
  edited(text, (document) => {
    const parts = document.get('parts');
    if (!isSeq(parts)) return;
    const [part] = parts.items.splice(from, 1);
    if (part !== undefined) parts.items.splice(to, 0, part);
  });

/** The whole file as a value, as it is written; `null` where it is no YAML. */
export const jobValue = (text: string): unknown => {
  try {
    return parseDocument(text, { logLevel: 'silent' }).toJS({ maxAliasCount: 20 }) as unknown;
  } catch {
    return null;
  }
};

const edited = (text: string, change: (document: Document) => void): string => {
  const document = parseDocument(text, { logLevel: 'silent' });
  if (document.errors.length > 0) return text;
  if (document.contents === null) document.contents = document.createNode({}) as never;
  change(document as unknown as Document);
  return document.toString({ lineWidth: 0, flowCollectionPadding: true });
};

/** A figure is written as one, so that the file reads as a person would have written it. */
const plain = (value: string | boolean): string | number | boolean =>
  typeof value === 'string' &&
  /^-?(?:0|[1-9]\d*)(?:\.\d+)?$/.test(value) &&
  String(Number(value)) === value
    ? Number(value)
    : value;

const scalarOf = (document: Document, value: string | boolean): unknown =>
  document.createNode(plain(value));

/** An empty section is written `{}`: what is put into it stands in lines of its own. */
const openUp = (document: Document, path: EntryPath): void => {
  const section = document.getIn(path);
  if (isMap(section) && section.items.length === 0) section.flow = false;
};

/** An entry taken out; a section that nothing is left in goes with it. */
const removeAt = (document: Document, path: EntryPath): void => {
  document.deleteIn(path);
  const above = path.slice(0, -1);
  const section = document.getIn(above);
  if (above.length > 2 && isMap(section) && section.items.length === 0) document.deleteIn(above);
};

/**
 * The text with one value of a single line replaced where it stands: everything else stays byte for
 * byte. `undefined` where there is no such value.
 */
const splicedScalar = (text: string, path: EntryPath, value: Typed): string | undefined => {
  if (value === undefined || path.length === 0) return undefined;
  const document = parseDocument(text, { logLevel: 'silent', keepSourceTokens: true });
  if (document.errors.length > 0) return undefined;
  const node = document.getIn(path, true);
  if (!isScalar(node) || node.range === null || node.range === undefined) return undefined;
  const [start, end] = node.range;
  const old = text.slice(start, end);
  if (node.anchor !== undefined || old === '' || old.includes('\n')) return undefined;
  const one = new Document(plain(value)).toString({ lineWidth: 0 }).trimEnd();
  if (one.includes('\n')) return undefined;
  const next = text.slice(0, start) + one + text.slice(end);
  // Within braces a plain text may mean something else: what is read back decides.
  const again = parseDocument(next, { logLevel: 'silent' });
  return again.errors.length === 0 && again.getIn(path) === plain(value) ? next : undefined;
};
