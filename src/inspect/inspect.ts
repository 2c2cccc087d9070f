import { type Refusal, unlessRefused } from '../dxf/read/refusal.ts';
import type { UnstatedUnit } from '../dxf/read/units.ts';
import type { Extents } from '../geometry/extents.ts';
import { boxOfAll, pieceBox, pieceLength } from '../geometry/piece-length.ts';
import { add, type Vec2 } from '../geometry/vec2.ts';
import { type Finding, stop, warn } from '../model/finding.ts';
import type { Shop, MaterialFamily } from '../model/shop.ts';
import { crossingFindings, nestingFindings, shortFindings } from './contour-findings.ts';
import { doubledFindings, doubledLength, type Twice, twiceDrawn } from './doubled-findings.ts';
import { type DxfDrawing, readDrawing } from './drawing.ts';
import { entityFindings } from './entity-findings.ts';
import { layersOf } from './layer-counts.ts';
import { type CutLines, cutLinesOf } from './lines.ts';
import { type Nested, nestingOf } from './nesting.ts';
import { openFindings } from './open-findings.ts';
import { placesFrom } from './places.ts';
import { type Doubles, doublesOf } from './shared-edges.ts';
import { cutLimits } from './sheet.ts';
import { bedFindings, sheetFindings } from './sheet-findings.ts';
import { farFindings, unitFindings } from './unit-findings.ts';
import type { Inspection } from '../contract/inspection.ts';

/** How a file is inspected. Lengths are in mm. */
export interface InspectOptions {
  readonly shop: Shop;
  /** Overrides what the file states. */
  readonly units: UnstatedUnit | undefined;
  /** Holes and webs are not judged without it. */
  readonly thicknessMm: number | undefined;
  readonly material: MaterialFamily;
  /** Loose ends no farther apart than this were meant to meet. */
  readonly gapMm: number;
  /** Shorter pieces are reported. */
  readonly shortMm: number;
  /** How far arcs may be from the curves that they stand for. */
  readonly errorMm: number;
}

/** What the marked-up picture and the mended copy are made from. */
export interface Inspected {
  readonly ok: true;
  readonly inspection: Inspection;
  readonly drawing: DxfDrawing;
  readonly lines: CutLines;
  readonly nested: Nested;
  /** What is drawn twice for nothing. */
  readonly twice: readonly Twice[];
}

/**
 * Inspects the bytes of a DXF file of any program. It takes bounded time and memory; a file that
 * cannot be inspected is refused.
 */
export const inspectDxf = (bytes: Uint8Array, options: InspectOptions): Inspected | Refusal =>
  unlessRefused((): Inspected => {
    const drawing = readDrawing(bytes, options.units);
    const lines = cutLinesOf(drawing.strokes, options);
    const nested = nestingOf(lines.closed);
    const doubles = doublesOf(lines);
    const twice = twiceDrawn(lines, doubles, drawing.strokes);
    return {
      ok: true,
      inspection: inspectionOf({ drawing, lines, nested, doubles, twice }, options),
      drawing,
      lines,
      nested,
      twice,
    };
  });

/** Everything that was made from a file. */
interface Seen {
  readonly drawing: DxfDrawing;
  readonly lines: CutLines;
  readonly nested: Nested;
  readonly doubles: Doubles;
  readonly twice: readonly Twice[];
}

const inspectionOf = (seen: Seen, options: InspectOptions): Inspection => {
  const {
    drawing,
    lines,
    nested: { contours, twins },
  } = seen;
  const box = boxOfAll(lines.drawn.map(pieceBox));
  const [parts, holes] = [
    contours.filter((c) => c.depth % 2 === 0),
    contours.filter((c) => c.depth % 2 === 1),
  ];
  const open = lines.open.length + lines.strays.length;
  const [doubledMm, area] = [
    doubledLength(lines),
    (all: typeof contours): number => all.reduce((sum, c) => sum + c.areaMm2, 0),
  ];
  return {
    version: drawing.version,
    unit: { name: drawing.unit.name, mm: drawing.unit.mm, from: drawing.unitFrom },
    extents: box === undefined ? null : shifted(box, drawing.origin),
    contours: {
      closed: contours.length,
      open,
      gaps: lines.gaps.length,
      parts: parts.length,
      holes: holes.length,
      deepest: contours.reduce((deepest, c) => Math.max(deepest, c.depth), 0),
    },
    areaMm2: area(parts) - area(holes),
    cutLengthMm: lines.drawn.reduce((sum, p) => sum + pieceLength(p), 0) - doubledMm,
    doubledMm,
    pierces: contours.length + twins.length + open,
    layers: layersOf(drawing.strokes, [...lines.drawn, ...lines.marks]),
    findings: findingsOf(seen, options, box),
  };
};

const shifted = ({ minX, minY, maxX, maxY }: Extents, [x, y]: Vec2): Extents => ({
  minX: minX + x,
  minY: minY + y,
  maxX: maxX + x,
  maxY: maxY + y,
});

const SEVERITIES = ['stop', 'warn', 'note'] as const;

const findingsOf = (
  { drawing, lines, nested, doubles, twice }: Seen,
  options: InspectOptions,
  extents: Extents | undefined,
): Finding[] => {
  const limits = cutLimits(options.shop, options.thicknessMm, options.material);
  const place = placesFrom(drawing.origin);
  const all = [
    ...(drawing.isCutOff
      ? [
          stop(
            'cut-off',
            'The file ends before its end mark: the rest of it is missing. Save it again.',
          ),
        ]
      : []),
    ...(extents === undefined
      ? [stop('nothing-to-cut', 'The file holds no line to cut.')]
      : unitFindings(drawing, extents)),
    ...farFindings(drawing),
    ...(extents === undefined || limits === undefined ? [] : bedFindings(extents, limits)),
    ...(limits === undefined
      ? [
          warn(
            'no-cutter',
            'No cutter of the shop takes this sheet: bed, holes and webs are not judged.',
          ),
        ]
      : sheetFindings(nested.contours, limits, place)),
    ...openFindings(lines, place),
    ...crossingFindings(lines, doubles, nested, place),
    ...doubledFindings(twice, doubles, place),
    ...shortFindings(lines, drawing.strokes, options.shortMm, place),
    ...nestingFindings(nested, place),
    ...entityFindings(drawing.oddities, drawing.strokes),
    ...(lines.meetings.isComplete && nested.isComplete
      ? []
      : [
          warn(
            'too-much',
            'There is so much in the file that not all lines were compared: more may be wrong than is reported.',
          ),
        ]),
  ];
  const told = all.map((f): Finding =>
    f.at === undefined ? f : { ...f, at: add(f.at, drawing.origin) },
  );
  return SEVERITIES.flatMap((severity) => told.filter((f) => f.severity === severity));
};
