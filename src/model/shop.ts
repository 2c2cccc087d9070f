import type { Bender, TubeStock } from './bender.ts';
import type { HemForm, MeasuredBend } from './bend-rule.ts';
import type { Handover } from './handover.ts';
import type { Machine } from './machine.ts';
import type { Material } from './material.ts';
import type { Rectangle, Remnant, SheetSize } from './sheets.ts';
import type { Rolls } from './wide-bends.ts';

/** A shop as its `shop.yaml` describes it. The names are those of the file, lengths in mm. */
export interface Shop {
  readonly name: string;
  /**
   * Whether the figures are assumed and not this shop's own. A part that breaks an assumed limit is
   * doubtful, not impossible.
   */
  readonly isAssumed: boolean;
  /** The parts that its file leaves out, which are the built-in shop's: assumed, too. */
  readonly builtIn?: readonly ShopPart[];
  /** Machines in the order of preference; folders come before press brakes. */
  readonly machines: readonly Machine[];
  /** Cutters in the order of preference: a sheet is cut by the first one that takes it. */
  readonly cutters: readonly Cutter[];
  /** Sheets in stock; an empty list sets no limit. */
  readonly sheets: readonly SheetSize[];
  /** What was left of sheets and is kept. */
  readonly remnants: readonly Remnant[];
  readonly marking: Marking;
  /** How cut files are handed over to a cutting service. */
  readonly handover: Handover;
  /** Gap between the ends of neighbouring flanges, to be welded. */
  readonly weldGap: number;
  /** The shop's own measured bends, as `calibrate` writes them. */
  readonly bends: readonly ShopBend[];
  /** Tube benders in the order of preference; none where left out. */
  readonly benders?: readonly Bender[] | undefined;
  /** How tube is bought and sawn; usual where left out. */
  readonly tubeStock?: TubeStock | undefined;
  /** Rolls for sheet in the order of preference; none where left out. */
  readonly rolls?: readonly Rolls[] | undefined;
}

/** The parts of a shop file that stand at its top, by their names there. */
export const SHOP_PARTS = [
  'name',
  'folders',
  'pressBrakes',
  'cutters',
  'sheets',
  'remnants',
  'marking',
  'handover',
  'weldGap',
  'bends',
] as const;
export type ShopPart = (typeof SHOP_PARTS)[number];

/** Whether nobody of the shop has said a part of it. */
export const isAssumedIn = ({ isAssumed, builtIn = [] }: Shop, part: ShopPart): boolean =>
  isAssumed || builtIn.includes(part);

/** Bends of one sheet, folded with one tool, or its hems of one form. */
export interface ShopBend {
  /** Id of the material. */
  readonly material: string;
  readonly machine: string;
  readonly tool: string;
  /** Radius of the tool's nose, mm. */
  readonly noseRadius?: number | undefined;
  readonly hem?: HemForm | undefined;
  readonly thickness: number;
  readonly radius: number;
  readonly k: number;
  /** One standard deviation each. */
  readonly kError: number;
  readonly radiusError: number;
  /** Correlation of the errors of K and radius; 0 when left out. */
  readonly correlation?: number | undefined;
  /**
   * Scatter of the deduction from one bend to the next, one standard deviation, mm; 0 when left
   * out.
   */
  readonly spread?: number | undefined;
  /** Ratio of the bend angle that stayed to the angle at the stop. */
  readonly springback?: number | undefined;
  readonly strips: number;
  readonly angles: { readonly from: number; readonly to: number };
  /** Measured deductions of the strips, by bend angle. */
  readonly deductions?:
    | readonly { readonly angle: number; readonly deduction: number; readonly strips: number }[]
    | undefined;
}

/** The shop's bend table of a material, for the rule `measured`. */
export const bendTable = ({ bends }: Shop, material: string): readonly MeasuredBend[] =>
  bends
    .filter((b) => b.material === material)
    .map(
      ({
        machine,
        tool,
        noseRadius,
        hem,
        thickness,
        radius,
        k,
        kError,
        radiusError,
        correlation = 0,
        spread = 0,
        springback,
        angles,
      }) => ({
        machine,
        tool,
        noseRadiusMm: noseRadius,
        hem,
        thicknessMm: thickness,
        insideRadiusMm: radius,
        kFactor: k,
        kError,
        radiusErrorMm: radiusError,
        correlation,
        spreadMm: spread,
        springback,
        anglesDeg: [angles.from, angles.to],
      }),
    );

export type MaterialFamily = Material['family'];

export type CutterProcess = 'laser' | 'plasma' | 'waterjet';

export interface Cutter {
  readonly name: string;
  readonly process: CutterProcess;
  readonly thickness: Span;
  readonly bed: Rectangle;
  /** Height of the strip along the lower edge of what lies on the bed that its clamps hold, mm. */
  readonly clamps?: number | undefined;
  readonly kerf: readonly Kerf[];
  readonly leastHole: LimitRows;
  readonly leastSlot: LimitRows;
  /** Smallest strip of metal between two cuts. */
  readonly leastWeb: LimitRows;
  /** Smallest strip of metal between the edge of a hole and the edge of the part. */
  readonly leastEdge: LimitRows;
  /** Sheet up to this thickness is likely to warp; 0 where none does. */
  readonly warpsUpTo: number;
  /** Whether it can scribe lines that it does not cut. */
  readonly marks: boolean;
  readonly import: CutterImport;
  /** How fast it cuts, where the shop says so. */
  readonly rates?: readonly CutRate[] | undefined;
  /** Price in the shop's own currency. */
  readonly pricePerHour?: number | undefined;
}

/**
 * Cutting rate on sheet up to a thickness, for one family of materials or for all that have no rows
 * of their own.
 */
export interface CutRate {
  readonly thickness: number;
  /** Cutting speed, mm a minute. */
  readonly speed: number;
  /** Seconds for each pierce. */
  readonly pierce: number;
  readonly material?: MaterialFamily | undefined;
}

export interface Span {
  readonly from: number;
  readonly to: number;
}

/**
 * Width of the cut at a thickness, for one family of materials or for all that have no rows of
 * their own.
 */
export interface Kerf {
  readonly thickness: number;
  readonly kerf: number;
  readonly material?: MaterialFamily | undefined;
}

/** Limits by thickness, rising; the last row holds for everything thicker. */
export type LimitRows = readonly LimitRow[];

/**
 * The limit is the largest of what the row gives: a length, a number of sheet thicknesses, a number
 * of kerfs.
 */
export interface LimitRow {
  /** Upper end of the thickness class, inclusive. */
  readonly upTo?: number | undefined;
  readonly mm?: number | undefined;
  readonly thicknesses?: number | undefined;
  readonly kerfs?: number | undefined;
}

/** What the cutter's program expects of a drawing. */
export interface CutterImport {
  readonly layers: 'kept' | 'merged';
  readonly foldLines: 'in' | 'out';
  readonly curves: 'arcs' | 'chords';
  readonly units: 'mm' | 'inch';
}

export const FOLD_MARKS = ['lines', 'nicks', 'none'] as const;
export const DRILLED_MARKS = ['crosses', 'pierces'] as const;

export interface Marking {
  /**
   * How fold lines are put on the metal: as lines that the cutter marks, as nicks at both ends, or
   * not at all.
   */
  readonly folds: (typeof FOLD_MARKS)[number];
  readonly face: 'inside' | 'outside';
  /**
   * How the centres of holes to be drilled are put on the metal: as crosses that the cutter marks,
   * or as small holes that it pierces.
   */
  readonly drilled: (typeof DRILLED_MARKS)[number];
}

/** Choices for where a part is folded: in the shop, by a service, or in the shop if it can. */
export const FOLD_AT = ['here', 'service', 'auto'] as const;
export type FoldAt = (typeof FOLD_AT)[number];

/** The first cutter that takes a thickness. */
export const cutterFor = (shop: Shop, thickness: number): Cutter | undefined =>
  shop.cutters.find((cutter) => takes(cutter, thickness));

/**
 * The shop with those of its cutters alone that have this name, or cut in this way; as it is where it
 * has none such.
 */
export const cutBy = (shop: Shop, name: string | undefined): Shop => {
  const cutters = name === undefined ? [] : cuttersCalled(shop, name);
  return cutters.length === 0 ? shop : { ...shop, cutters };
};

/** The cutters of this name or process, in small or capital letters. */
export const cuttersCalled = ({ cutters }: Shop, name: string): readonly Cutter[] => {
  const asked = name.trim().toLowerCase();
  return cutters.filter((c) => c.name.toLowerCase() === asked || c.process === asked);
};

export const takes = ({ thickness: { from, to } }: Cutter, thickness: number): boolean =>
  thickness >= from && thickness <= to;

/** What a drawing holds where nothing is known of the cutter's program. */
export const ANY_IMPORT: CutterImport = {
  layers: 'kept',
  foldLines: 'in',
  curves: 'arcs',
  units: 'mm',
};

/** Whether a file in such a form holds nothing but what is cut. */
export const holdsCutsAlone = ({ layers, foldLines }: CutterImport): boolean =>
  foldLines === 'out' || layers === 'merged';

/** What the program of the cutter that takes a thickness expects of a drawing. */
export const importFor = (shop: Shop, thickness: number): CutterImport =>
  cutterFor(shop, thickness)?.import ?? ANY_IMPORT;

/**
 * Width of the cut, mm. Between the material's rows it is interpolated on a straight line; outside
 * them the nearest row holds.
 */
export function kerfOf({ kerf }: Cutter, material: MaterialFamily, thickness: number): number {
  const own = kerf.filter((row) => row.material === material);
  const rows = own.length > 0 ? own : kerf.filter((row) => row.material === undefined);
  const [above, below] = [
    rows.find((row) => row.thickness >= thickness),
    rows.findLast((row) => row.thickness <= thickness),
  ];
  const [upper, lower] = [above ?? below, below ?? above];
  if (upper === undefined || lower === undefined) throw new Error(`no kerf for ${material}`);
  if (upper.thickness === lower.thickness) return upper.kerf;
  return (
    lower.kerf +
    ((upper.kerf - lower.kerf) * (thickness - lower.thickness)) /
      (upper.thickness - lower.thickness)
  );
}

/** The limit that a table sets for a thickness, mm. */
export function limitOf(rows: LimitRows, thickness: number, kerf: number): number {
  const row = rows.find(({ upTo }) => upTo === undefined || thickness <= upTo) ?? rows.at(-1);
  return Math.max(row?.mm ?? 0, (row?.thicknesses ?? 0) * thickness, (row?.kerfs ?? 0) * kerf);
}
