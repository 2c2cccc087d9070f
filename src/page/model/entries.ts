/**
 * Inputs that hold several things of one kind, as rows with fields. Each reads what it can and writes
 * the notation of the command; a text that is written otherwise has no rows and stays a text.
 */
export type Row = readonly string[];

export type RowKind = 'holes' | 'points' | 'distances' | 'flanges';

/** What a row of each kind holds. Holes have the words of their axes in place of the first two. */
export const COLUMNS: Readonly<Record<RowKind, readonly string[]>> = {
  holes: ['across', 'along', 'size'],
  points: ['name', 'x', 'y'],
  distances: ['from', 'to', 'distance'],
  flanges: ['name', 'on', 'height', 'angle', 'way', 'more'],
};

/** A row to begin with. */
export const NEW_ROW: Readonly<Record<RowKind, Row>> = {
  holes: ['', '', 'M6'],
  points: ['', '', ''],
  distances: ['', '', ''],
  flanges: ['', 'base top', '', '90', 'up', ''],
};

/** The rows of a text; `undefined` where something in it is written in another way. */
export const rowsOf = (kind: RowKind, text: string): readonly Row[] | undefined => {
  const entries = text.split(SEPARATORS[kind]).map((e) => e.trim());
  const rows = entries.filter((e) => e !== '').map((entry) => READ[kind](entry));
  return rows.every((row) => row !== undefined) ? rows : undefined;
};

export const textOf = (kind: RowKind, rows: readonly Row[]): string =>
  rows.map((row) => WRITE[kind](row)).join(kind === 'distances' ? ', ' : '; ');

/** How a row is written in a list of its own lines. */
export const lineOf = (kind: RowKind, row: Row): string => WRITE[kind](row);

const SEPARATORS: Readonly<Record<RowKind, RegExp>> = {
  holes: /[;\n]/,
  points: /[;\n]/,
  distances: /[,;\n]/,
  flanges: /\n/,
};

const words = (text: string): string[] => text.split(',').map((word) => word.trim());

/** Two places and a size: `35,20,M8` or `from fold 35, from left 20, M8`. */
const readHole = (entry: string): Row | undefined => {
  const found = words(entry);
  return found.length === 3 ? found : undefined;
};

const readPoint = (entry: string): Row | undefined => {
  const colon = entry.indexOf(':');
  const found = words(entry.slice(colon + 1));
  return found.length === 2 ? [entry.slice(0, Math.max(0, colon)).trim(), ...found] : undefined;
};

const readDistance = (entry: string): Row | undefined => {
  const [, from, to, value] = /^([^-:]*)-([^-:]*):\s*(.*)$/.exec(entry) ?? [];
  return from === undefined || to === undefined || value === undefined
    ? undefined
    : [from.trim(), to.trim(), value];
};

const FLANGE = /^(\S.*?)?\s*on ([\p{L}][\p{L}\p{N} _]*?) (\S*) (\S*) (up|down)(?: (.*))?$/iu;

const readFlange = (entry: string): Row | undefined => {
  const [whole, name = '', on = '', height = '', angle = '', way = '', more = ''] =
    FLANGE.exec(entry) ?? [];
  return whole === undefined ? undefined : [name, on, height, angle, way, more];
};

const READ: Readonly<Record<RowKind, (entry: string) => Row | undefined>> = {
  holes: readHole,
  points: readPoint,
  distances: readDistance,
  flanges: readFlange,
};

/** Figures in short stand close, as everybody writes them; named places have room between them. */
const writeHole = (row: Row): string => row.join(row.some((w) => /^from\b/i.test(w)) ? ', ' : ',');

const WRITE: Readonly<Record<RowKind, (row: Row) => string>> = {
  holes: writeHole,
  points: ([name = '', x = '', y = '']) => (name === '' ? `${x},${y}` : `${name}: ${x},${y}`),
  distances: ([from = '', to = '', mm = '']) => `${from}-${to}: ${mm}`,
  flanges: ([name = '', on = '', height = '', angle = '', way = '', more = '']) =>
    `${name} on ${on} ${height} ${angle} ${way}${more === '' ? '' : ` ${more}`}`,
};

/** Text that is a figure at its end, such as `35` or `from fold 35`: what stands before, and it. */
const FIGURE = /^(.*?)(-?\d+(?:\.\d+)?)$/;

/** The figure of a cell; `undefined` of a sum, a name or nothing. */
export const figureIn = (cell: string): number | undefined => {
  const [, before, figure] = FIGURE.exec(cell.trim()) ?? [];
  return figure === undefined || !/^(?:[\p{L}\s]*\s)?$/u.test(before ?? '')
    ? undefined
    : Number(figure);
};

/** The same cell with another figure, to a thousandth. */
export const withFigure = (cell: string, figure: number): string => {
  const [, before = ''] = FIGURE.exec(cell.trim()) ?? [];
  return `${before}${Number(figure.toFixed(3))}`;
};

/** Statements of sides among distances, `A-B-C: left`, and the rest of the text. */
export const splitSides = (
  text: string,
): { readonly distances: string; readonly sides: readonly string[] } => {
  const entries = text
    .split(SEPARATORS.distances)
    .map((e) => e.trim())
    .filter((e) => e !== '');
  const isSide = (entry: string): boolean => /^[^:]*-[^:]*-[^:]*:/.test(entry);
  return {
    distances: entries.filter((e) => !isSide(e)).join(', '),
    sides: entries.filter(isSide),
  };
};
