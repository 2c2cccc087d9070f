import { formOf } from '../forms/accepts.ts';
import { type Field, fieldOf, type Flaw, type Read, type Said, saidOf } from '../forms/field.ts';
import { shown } from '../forms/given.ts';
import { parseYaml } from '../forms/yaml.ts';
import { BASE_ALLOWED, CORNER_ALLOWED, flawIn, keysOf, readWith } from './fields.ts';
import {
  type GivenPieceMap,
  type GivenTabMap,
  PIECE_MAP,
  type PieceMap,
  PIECES,
  TAB_MAP,
  TABS,
} from './given-pieces.ts';
import { baseMap, cornerMaps, FLANGE_ALLOWED, flangeMaps, type Line } from './lines.ts';
import { FITS_ALLOWED, fitsMap, TAB_ALLOWED, tabMaps } from './piece-lines.ts';
import { intoPieces, intoTabs } from './with-measurements.ts';

/** The fields of a family for a part of several blanks, and for tabs that locate its panels. */

export const PIECES_ALLOWED =
  'a list of maps, each with name and base, and with quantity, flanges, corners, order, fits and tabs as it needs them; as a flag the same in brackets: [{ name: box, base: 120 x 80 }]';

/** More blanks than any part here has. */
export const MOST_PIECES = 40;

/** A field for pieces; none unless given. */
export const panelPieces = (said: Said): Field<readonly PieceMap[]> =>
  fieldOf(
    {
      kind: 'text',
      list: { one: 'piece', many: 'pieces' },
      ...saidOf(said),
      allowed: PIECES_ALLOWED,
      default: '',
      example: '[{ name: lid, fits: over box gap 1, flanges: skirt on top 15 90 up }]',
      withMeasurements: intoPieces,
      keys: keysOf(PIECE_MAP),
    },
    () => formOf(PIECES),
    readPieces,
  );

/** A field for tabs; none unless given. */
export const panelTabs = (said: Said): Field<readonly GivenTabMap[]> =>
  fieldOf(
    {
      kind: 'text',
      list: { one: 'tab', many: 'tabs' },
      each: 'tab',
      ...saidOf(said),
      allowed: TAB_ALLOWED,
      default: '',
      example: 'rib end into base count 2 width 15',
      withMeasurements: intoTabs,
      keys: keysOf(TAB_MAP),
    },
    () => formOf(TABS),
    (given = '') => readWith(TABS, given, 'tab', TAB_MAP, tabMaps, TAB_ALLOWED),
  );

const flawed = (flaw: Partial<Flaw>): Read<never> => ({
  ok: false,
  flaws: [{ path: [], allowed: PIECES_ALLOWED, ...flaw }],
});

/** A flag gives as a text what a file gives as it is. */
function readPieces(given: unknown = ''): Read<readonly PieceMap[]> {
  if (typeof given !== 'string') return readList(given);
  if (given.trim() === '') return { ok: true, value: [] };
  const read = parseYaml(given);
  if (!read.ok) return flawed({ given: read.given, ...(read.mend && { mend: read.mend }) });
  return typeof read.value === 'object' && read.value !== null
    ? readList(Array.isArray(read.value) ? read.value : [read.value])
    : flawed({ given: shown(given) });
}

const readList = (given: unknown): Read<readonly PieceMap[]> => {
  const taken = PIECES.safeParse(given);
  if (!taken.success || typeof taken.data === 'string')
    return flawed(flawIn(given, 'piece', PIECE_MAP));
  if (taken.data.length > MOST_PIECES)
    return flawed({
      given: `${taken.data.length} pieces`,
      allowed: `at most ${MOST_PIECES} pieces`,
    });
  const flaws: Flaw[] = [];
  const value = taken.data.map((piece, i) => pieceOf(piece, i, flaws));
  return flaws.length > 0 ? { ok: false, flaws } : { ok: true, value };
};

/** A piece with its lines taken apart; what is wrong with one goes to `flaws`. */
function pieceOf(given: GivenPieceMap, i: number, flaws: Flaw[]): PieceMap {
  const lines = <T>(key: string, line: Line<T>, allowed: string, otherwise: T): T => {
    if (line.ok) return line.value;
    flaws.push({
      path: [i, key],
      allowed,
      given: `${line.given} as ${key} ${line.number} of piece ${i + 1}`,
      mend: line.mend,
    });
    return otherwise;
  };
  const {
    name,
    quantity,
    order,
    base = {},
    flanges = '',
    corners = '',
    tabs = '',
    fits,
    measure,
  } = given;
  return {
    name,
    quantity,
    order,
    measure,
    base: lines('base', baseMap(base), BASE_ALLOWED, {}),
    flanges: lines('flanges', flangeMaps(flanges), FLANGE_ALLOWED, []),
    corners: lines('corners', cornerMaps(corners), CORNER_ALLOWED, []),
    tabs: lines('tabs', tabMaps(tabs), TAB_ALLOWED, []),
    fits: fits === undefined ? undefined : lines('fits', fitsMap(fits), FITS_ALLOWED, {}),
  };
}
