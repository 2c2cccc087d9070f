import { assemble, turnedFold } from '../../src/template.ts';
import type { Cutout, GivenFold, Part, Piece } from '../../src/template.ts';
import { type Blanks, foldedIn, foldName } from './chains.ts';
import { plateHoles, sideHoles } from './fittings.ts';
import type { TankPlan } from './inputs.ts';
import { type Chain, type PlacedPanel, platePanel } from './panels.ts';
import { cornerTurnDeg, type Shape, sideName } from './planes.ts';
import { floorInPieces } from './floor-pieces.ts';
import { seamedPlate } from './seam-plate.ts';
import { sidePanel } from './side-panel.ts';
import { steppedFloor } from './stepped-floor.ts';
import { plateWishes, sideWishes } from './wishes.ts';

/** The blanks of the sides, each folded from the side in its middle. */
export const sideBlanks = (v: TankPlan, all: Blanks): Piece[] =>
  all.chains.map((chain, i): Piece => {
    const panels = chain.map((side) => ({
      side,
      placed: sidePanel(all.shape, side, chain, all.sheet),
    }));
    const root = Math.floor((chain.length - 1) / 2);
    const part = assemble(
      // Sides are worked out from the inside of the tank, whichever faces were measured.
      { ...v, measure: 'inside' },
      {
        root: sideName(chain[root] as number),
        panels: panels.map(({ side, placed }) => ({
          id: placed.name,
          outline: placed.outline,
          cutouts: holesInSide(v, all, placed, side),
        })),
        folds: chain
          .slice(1)
          .map((corner, k) => foldAt(v, all.shape, corner, k < root, foldName(chain, corner))),
        wishes: sideWishes(all, chain),
      },
    );
    const { pose } = (panels[root] as (typeof panels)[number]).placed;
    return { id: idOf(v.blanks, i, chain), part, standing: { poses: [pose], turn: 2 } };
  });

const idOf = (blanks: TankPlan['blanks'], i: number, [first = 0]: Chain): string =>
  blanks === 'plates' ? `side-${first + 1}` : blanks === 'halves' ? `wrap-${i + 1}` : 'wrap';

const holesInSide = (
  v: TankPlan,
  { room }: Blanks,
  placed: PlacedPanel,
  side: number,
): readonly Cutout[] =>
  sideHoles(v, placed, side, room.corners[side] as readonly [number, number]).cutouts;

/** The fold at a corner, between the side that ends there and the one that begins there. */
const foldAt = (
  v: TankPlan,
  shape: Shape,
  corner: number,
  isBeforeRoot: boolean,
  id: string,
): GivenFold => {
  const n = shape.low.length;
  const sides = [
    { panel: sideName((corner + n - 1) % n), edge: 'left' },
    { panel: sideName(corner), edge: 'right' },
  ] as const;
  return turnedFold(id, sides, cornerTurnDeg(shape.planes, corner), isBeforeRoot, v.insideRadiusMm);
};

/** The floor in one blank, or in as many pieces as its steps ask for. */
export const floorBlanks = (v: TankPlan, all: Blanks): Piece[] => {
  if (all.shape.planes.risers.length === 0) return [plateBlank(v, all, 'floor')];
  const folded = foldedCorners(all);
  return all.sheet.isFloorInPieces ? floorInPieces(v, all, folded) : [steppedFloor(v, all, folded)];
};

const foldedCorners = ({ shape, chains }: Blanks): number[] =>
  shape.low.map((_, i) => i).filter(foldedIn(chains));

/** Floor or top, a flat sheet, or with its edges folded. */
export const plateBlank = (v: TankPlan, all: Blanks, which: 'floor' | 'top'): Piece => {
  const folded = foldedCorners(all);
  if (all.sheet.seams[which] !== 'edge') return seamedPlate(v, all, which, folded);
  const placed = platePanel(all.shape, which, all.sheet, folded);
  const { cutouts } = plateHoles(v, all.shape, placed, which);
  const part: Part = assemble(v, {
    root: which,
    panels: [{ id: which, outline: placed.outline, cutouts }],
    folds: [],
    wishes: plateWishes(all, placed, which),
  });
  return {
    id: which,
    part,
    standing: { poses: [placed.pose], turn: which === 'floor' ? 1 : 4 },
  };
};
