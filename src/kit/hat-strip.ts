import { polygon, type Loop } from '../geometry/loop.ts';
import type { CommonValues } from '../forms/common.ts';
import { type HoleFrame, placeHoles } from '../forms/place-hole.ts';
import type { Built } from '../forms/template.ts';
import type { Panel, Part } from '../model/part.ts';
import { type HatAsk, type SlopedHat, slopedHat } from './sloped-hat.ts';
import { stripPart, type StripPanel } from './strip.ts';
import { edge, holeWishes, wish } from './wishes.ts';

/** What else is to be known of the panels: the feet as they are, and the holes of the others. */
export interface HatPanels {
  readonly footA: Omit<StripPanel, 'id'>;
  readonly footB: Omit<StripPanel, 'id'>;
  readonly holesA: NonNullable<StripPanel['holes']>;
  readonly holesB: NonNullable<StripPanel['holes']>;
  readonly holesCrown: NonNullable<StripPanel['holes']>;
}

/**
 * A hat of one blank whose crown may slope both ways: `foot A`, `side A`, `crown`, `side B` and `foot
 * B`, which the folds A to D join; the crown stays put. Its measure is outside, whatever the values
 * say. Holes of the sides are measured from the feet, those of the crown from side A.
 */
export function hatPart(values: CommonValues, ask: HatAsk, panels: HatPanels): Built {
  const hat = slopedHat(ask);
  const rows: readonly StripPanel[] = [
    { ...panels.footA, id: 'foot A' },
    { id: 'side A', lengthMm: hat.sideMm.A, holes: panels.holesA, holesFrom: 'below' },
    { id: 'crown', lengthMm: hat.crownMm, holes: panels.holesCrown },
    { id: 'side B', lengthMm: hat.sideMm.B, holes: panels.holesB, holesFrom: 'above' },
    { ...panels.footB, id: 'foot B' },
  ];
  const folds = [
    { angleDeg: 90, direction: 'up' },
    { angleDeg: hat.turnDeg.A, direction: 'down' },
    { angleDeg: hat.turnDeg.B, direction: 'down' },
    { angleDeg: 90, direction: 'up' },
  ] as const;
  const built = stripPart({ ...values, measure: 'outside' }, ask.widthMm, rows, folds, 'crown');
  if (built.part === undefined || hat.leanMm === 0) return built;
  return { ...built, part: leant(built.part, ask, hat, panels.holesCrown) };
}

/** The part with its crown leaning along the folds: the sides end on a slant, the crown is longer. */
const leant = (
  part: Part,
  { widthMm, thicknessMm }: HatAsk,
  hat: SlopedHat,
  [input, specs]: HatPanels['holesCrown'],
): Part => {
  const frame = crownFrame(hat, thicknessMm);
  const panels = part.panels.map((panel): Panel => {
    const outline = leantOutline(panel.id, widthMm, hat);
    if (outline === undefined) return panel;
    const cutouts = panel.id === 'crown' ? placeHoles(input, specs, frame) : panel.cutouts;
    return { ...panel, outline, cutouts };
  });
  const ofCrown = holeWishes(input, specs, {
    panel: 'crown',
    across: [{ kind: 'fold', panel: 'crown', fold: 'B', measure: 'outside' }],
    along: [edge('crown', 'left'), edge('crown', 'right')],
  });
  const others = (part.wishes ?? []).filter(
    (w) => !w.input.startsWith(`${input} `) && w.input !== 'width',
  );
  // The width of a crown that leans is not that of its feet.
  const width = wish('width', widthMm, edge('foot A', 'left'), edge('foot A', 'right'));
  return { ...part, panels, wishes: [width, ...others, ...ofCrown] };
};

/** Square to the fold and to the left edge, which stand askew on a crown that slopes both ways. */
const crownFrame = ({ alongMm, crownMm, skewMm }: SlopedHat, thicknessMm: number): HoleFrame => {
  const edgeMm = Math.hypot(crownMm, skewMm);
  const sine = crownMm / edgeMm;
  return {
    origin: [0, 0],
    across: [skewMm / crownMm, 1],
    along: [1 / sine, 0],
    spanMm: [crownMm, alongMm * sine],
    thicknessMm,
  };
};

const leantOutline = (id: string, widthMm: number, hat: SlopedHat): Loop | undefined => {
  const { sideMm, crownMm, alongMm, skewMm, leanMm } = hat;
  if (id === 'side A')
    return quadrilateral(
      [0, 0],
      [widthMm, 0],
      [widthMm, sideMm.A + leanMm / 2],
      [0, sideMm.A - leanMm / 2],
    );
  if (id === 'side B')
    return quadrilateral(
      [0, leanMm / 2],
      [widthMm, -leanMm / 2],
      [widthMm, sideMm.B],
      [0, sideMm.B],
    );
  if (id === 'crown')
    return quadrilateral([0, 0], [alongMm, 0], [alongMm + skewMm, crownMm], [skewMm, crownMm]);
  return undefined;
};

type Corner = readonly [x: number, y: number];

const quadrilateral = (a: Corner, b: Corner, c: Corner, d: Corner): Loop =>
  polygon([...a, 'bottom'], [...b, 'right'], [...c, 'top'], [...d, 'left']);
