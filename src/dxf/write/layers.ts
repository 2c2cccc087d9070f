import type { DrawingItem, Role } from '../../model/drawing.ts';

/** How lines of one role look in a file. */
export interface Layer {
  readonly role: Role;
  /** Name of A-Z, 0-9, - and _ only, at most 31 characters: what the oldest DXF readers take. */
  readonly name: string;
  /** Index into the 255 colours of DXF. */
  readonly dxfColour: number;
  readonly svgColour: string;
  /** Line width on paper, in hundredths of a millimetre as DXF counts it. */
  readonly lineWeight: number;
}

/**
 * Line width of cuts, twice that of narrow lines. Lines that bend are narrow and continuous, as on
 * any drawing of a blank (after ISO 128-2 and the older ISO 128-24, line types 01.2 and 01.1, from
 * memory).
 */
const WIDE = 50;
const NARROW = 25;

/**
 * One layer per role, in the order in which they stand in a file. Some controllers work in that
 * order (common practice), so the roles that need the whole sheet come first, holes come before the
 * outline, and the outline, which frees the part, comes last. Cuts are black on white or white on
 * black; blue and orange are easily told apart by colour-blind eyes as well.
 */
export const LAYERS: readonly Layer[] = [
  { role: 'note', name: 'NOTE', dxfColour: 8, svgColour: '#707070', lineWeight: NARROW },
  { role: 'mark', name: 'MARK', dxfColour: 8, svgColour: '#707070', lineWeight: NARROW },
  { role: 'fold-up', name: 'FOLD-UP', dxfColour: 150, svgColour: '#0060c0', lineWeight: NARROW },
  { role: 'fold-down', name: 'FOLD-DOWN', dxfColour: 30, svgColour: '#d06000', lineWeight: NARROW },
  { role: 'hole', name: 'HOLES', dxfColour: 7, svgColour: '#000000', lineWeight: WIDE },
  { role: 'outline', name: 'OUTLINE', dxfColour: 7, svgColour: '#000000', lineWeight: WIDE },
  { role: 'cut', name: 'CUT', dxfColour: 7, svgColour: '#000000', lineWeight: WIDE },
];

/** Roles that are cut through the sheet. */
export const isCut = (role: Role): boolean =>
  role === 'outline' || role === 'hole' || role === 'cut';

const BY_ROLE: ReadonlyMap<Role, Layer> = new Map(LAYERS.map((layer) => [layer.role, layer]));

export const layerOf = (role: Role): Layer => {
  const layer = BY_ROLE.get(role);
  if (layer === undefined) throw new Error(`the role ${role} has no layer`);
  return layer;
};

/** The layers that some items lie on, in file order. */
export const usedLayers = (items: readonly DrawingItem[]): Layer[] => {
  const roles = new Set(items.map((item) => item.role));
  return LAYERS.filter((layer) => roles.has(layer.role));
};
