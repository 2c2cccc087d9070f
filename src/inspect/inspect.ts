import type { Extents } from '../geometry/extents.ts';
import { type Finding, stop, warn } from '../model/finding.ts';
import type { Shop, MaterialFamily } from '../model/shop.ts';
import { crossingFindings, doubledFindings, doubledLength, nestingFindings, openFindings, shortFindings } from './contour-findings.ts';
import { type DxfDrawing, readDrawing, type UnitFrom } from './drawing.ts';
import { entityFindings } from './entity-findings.ts';
import { boxOfAll, lengthOf, pieceBox, pieceLength } from './lengths.ts';
import { type CutLines, cutLinesOf } from './lines.ts';
import { type Nested, nestingOf } from './nesting.ts';
import { type Refusal, Refused } from './refusal.ts';
import { cutLimits } from './sheet.ts';
import { bedFindings, sheetFindings } from './sheet-findings.ts';
import { unitFindings } from './unit-findings.ts';
import type { UnstatedUnit } from './units.ts';

/** How a file is looked at. Lengths in mm. */
export interface InspectOptions {
  readonly shop: Shop;
  /** Goes before what the file states. */
  readonly units: UnstatedUnit | undefined;
  /** Without it holes and webs are not judged. */
  readonly thicknessMm: number | undefined;
  readonly material: MaterialFamily;
  /** Loose ends no farther apart were meant to meet. */
  readonly gapMm: number;
  /** Shorter pieces are told of. */
  readonly shortMm: number;
  /** How far arcs may be from the curves that they stand for. */
  readonly errorMm: number;
}

export interface LayerCount {
  readonly name: string;
  readonly pieces: number;
  readonly lengthMm: number;
}

/** What is in a file, for its maker and for programs. Lengths in mm. */
export interface Inspection {
  /** Release of the DXF. */
  readonly version: string;
  readonly unit: { readonly name: string; readonly mm: number; readonly from: UnitFrom };
  /** Of what is cut; `null` when nothing is. */
  readonly extents: Extents | null;
  readonly contours: { readonly closed: number; readonly open: number; readonly parts: number; readonly holes: number; readonly deepest: number };
  /** Metal within the contours, holes off. */
  readonly areaMm2: number;
  /** Each line once. */
  readonly cutLengthMm: number;
  /** Cut a second time on top of that, as drawn. */
  readonly doubledMm: number;
  readonly pierces: number;
  readonly layers: readonly LayerCount[];
  readonly findings: readonly Finding[];
}

/** What the marked-up picture and the mended copy are made of. */
export interface Inspected {
  readonly ok: true;
  readonly inspection: Inspection;
  readonly drawing: DxfDrawing;
  readonly lines: CutLines;
  readonly nested: Nested;
}

/** Looks at the bytes of a DXF file of any program. Takes bounded time and memory; what cannot be looked at is refused. */
export const inspectDxf = (bytes: Uint8Array, options: InspectOptions): Inspected | Refusal => {
  try {
    const drawing = readDrawing(bytes, options.units);
    const lines = cutLinesOf(drawing.strokes, options);
    const nested = nestingOf(lines.meant);
    return { ok: true, inspection: inspectionOf(drawing, lines, nested, options), drawing, lines, nested };
  } catch (error) {
    if (error instanceof Refused) return error.refusal;
    throw error;
  }
};

const inspectionOf = (drawing: DxfDrawing, lines: CutLines, nested: Nested, options: InspectOptions): Inspection => {
  const extents = boxOfAll(lines.drawn.map(pieceBox));
  const { contours } = nested;
  const open = lines.chains.filter((c) => !c.closed);
  return {
    version: drawing.version,
    unit: { name: drawing.unit.name, mm: drawing.unit.mm, from: drawing.unitFrom },
    extents: extents ?? null,
    contours: {
      closed: lines.chains.length - open.length,
      open: open.length,
      parts: contours.filter((c) => c.depth % 2 === 0).length,
      holes: contours.filter((c) => c.depth % 2 === 1).length,
      deepest: contours.reduce((deepest, c) => Math.max(deepest, c.depth), 0),
    },
    areaMm2: contours.reduce((sum, c) => sum + (c.depth % 2 === 0 ? c.areaMm2 : -c.areaMm2), 0),
    cutLengthMm: lines.chains.reduce((sum, c) => sum + lengthOf(c.pieces), 0),
    doubledMm: doubledLength(lines),
    pierces: lines.chains.length,
    layers: layersOf(lines),
    findings: findingsOf(drawing, lines, nested, options, extents),
  };
};

const layersOf = ({ drawn, marks }: CutLines): LayerCount[] => {
  const layers = new Map<string, { pieces: number; lengthMm: number }>();
  for (const all of [drawn, marks]) {
    for (const piece of all) {
      const known = layers.get(piece.layer) ?? { pieces: 0, lengthMm: 0 };
      layers.set(piece.layer, { pieces: known.pieces + 1, lengthMm: known.lengthMm + pieceLength(piece) });
    }
  }
  return [...layers].map(([name, count]) => ({ name, ...count }));
};

const SEVERITIES = ['stop', 'warn', 'note'] as const;

const findingsOf = (drawing: DxfDrawing, lines: CutLines, nested: Nested, options: InspectOptions, extents: Extents | undefined): Finding[] => {
  const limits = cutLimits(options.shop, options.thicknessMm, options.material);
  const all = [
    ...(drawing.isCutOff ? [stop('cut-off', 'The file ends before its end mark: the rest of it is missing. Save it again.')] : []),
    ...(extents === undefined ? [stop('nothing-to-cut', 'The file holds no line to cut.')] : unitFindings(drawing, extents)),
    ...(extents === undefined || limits === undefined ? [] : bedFindings(extents, limits)),
    ...(limits === undefined ? [warn('no-cutter', 'No cutter of the shop takes this sheet: bed, holes and webs are not judged.')] : sheetFindings(nested.contours, limits)),
    ...openFindings(lines, nested),
    ...crossingFindings(lines),
    ...doubledFindings(lines, drawing.strokes),
    ...shortFindings(lines, drawing.strokes, options.shortMm),
    ...nestingFindings(nested),
    ...entityFindings(drawing.oddities, drawing.strokes),
    ...(lines.meetings.isComplete && nested.isComplete ? [] : [warn('too-much', 'There is so much in the file that not all lines were compared: more may be wrong than is told.')]),
  ];
  return SEVERITIES.flatMap((severity) => all.filter((f) => f.severity === severity));
};
