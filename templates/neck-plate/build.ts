import {
  asBoltHole,
  assemble,
  type Built,
  circle,
  type Cutout,
  figure,
  type Finding,
  hasStop,
  hatPart,
  type Loop,
  meeting,
  note,
  type Part,
  type Piece,
  placeHole,
  polygon,
  rectangle,
  roundCorners,
  roundFreeCorners,
  subtract,
  type Vec2,
} from '../../src/template.ts';
import { cheeksOf } from './cheeks.ts';
import { impossibleNeck } from './limits.ts';
import { neckReport } from './report.ts';
import {
  axisOnPanelMm,
  besideBoxMm,
  boltsRound,
  boxOf,
  flangeBolts,
  hatAsk,
  holeOnFaceMm,
  outerMm,
  panelHole,
  plateHole,
  shiftMm,
} from './sizes.ts';
import { boxWishes, flatWishes, patchWishes } from './wishes.ts';
import type { NeckPlate } from './inputs.ts';

/** The plate, and the patch by which its hole and its bolts come onto the panel. */
export function neckPlate(v: NeckPlate): Built {
  const impossible = impossibleNeck(v);
  if (impossible.length > 0) return { findings: impossible };
  const made = v.mount === 'flat' ? flatPlate(v) : boxPlate(v);
  if (made.part === undefined || hasStop(made.findings)) return { findings: made.findings };
  const pieces: Piece[] = [
    { id: 'plate', part: made.part },
    { id: 'panel-hole', part: v.mount === 'flat' ? flatPatch(v) : boxPatch(v) },
  ];
  return { pieces, findings: [...made.findings, wayNote(v)], report: neckReport(v) };
}

interface MadePlate {
  readonly part?: Part;
  readonly findings: readonly Finding[];
}

const bolt = (v: NeckPlate, centre: Vec2, number: number, meets: string): Cutout => {
  const { use } = meeting(asBoltHole({ shape: { kind: 'round', diameterMm: v.boltHole } }), meets);
  return {
    kind: 'round',
    from: `bolt ${number}`,
    inputs: ['boltHole'],
    centre,
    diameterMm: v.boltHole,
    ...(use !== undefined && { use }),
  };
};

const flatOutline = (v: NeckPlate): { outline: Loop; findings: readonly Finding[] } => {
  const outer = outerMm(v);
  return v.shape === 'round'
    ? { outline: circle([0, 0], outer / 2), findings: [] }
    : roundFreeCorners(
        'the plate',
        rectangle(-outer / 2, -outer / 2, outer, outer),
        ['bottom', 'top'],
        v,
      );
};

/** A hole of the neck about a point, in sheet of a thickness; the neck leans upwards. */
const neckHole = (
  { shape, use }: ReturnType<typeof plateHole>,
  [x, y]: Vec2,
  thicknessMm: number,
): Cutout => ({
  ...placeHole({ acrossMm: y, alongMm: x, shape, use }, 'tube 1', {
    origin: [0, 0],
    across: [0, 1],
    along: [1, 0],
    thicknessMm,
  }),
  inputs: ['tube'],
});

const flatPlate = (v: NeckPlate): MadePlate => {
  const { outline, findings } = flatOutline(v);
  const bolts = boltsRound(v).map((at, i) => bolt(v, at, i + 1, 'panel'));
  return {
    part: assemble(v, {
      root: 'plate',
      panels: [
        {
          id: 'plate',
          outline,
          cutouts: [neckHole(plateHole(v), [0, 0], v.thicknessMm), ...bolts],
        },
      ],
      folds: [],
      wishes: flatWishes(v, 'plate'),
    }),
    findings,
  };
};

/** Depth of the notch that shows which way the neck leans. */
const NOTCH_MM = 4;

const withNotch = (outline: Loop, [x, top]: Vec2): Loop => {
  const notch = polygon([x - NOTCH_MM, top + 1], [x, top - NOTCH_MM], [x + NOTCH_MM, top + 1]);
  const [left = outline] =
    subtract(outline, notch, ([px, py], bulge) => ({ x: px, y: py, bulge })) ?? [];
  return left;
};

/** The same plate as it lies on the panel, which the axis meets lower down, and so farther back. */
const flatPatch = (v: NeckPlate): Part => {
  const back = shiftMm(v, (v.thicknessMm + v.panelThickness) / 2);
  const outer = outerMm(v);
  return assemble(v, {
    root: 'panel hole',
    panels: [
      {
        id: 'panel hole',
        outline: withNotch(flatOutline(v).outline, [0, outer / 2]),
        cutouts: [
          neckHole(panelHole(v), [0, -back], v.panelThickness),
          ...boltsRound(v).map((at, i) => bolt(v, at, i + 1, 'plate')),
        ],
      },
    ],
    folds: [],
    wishes: patchWishes(v, back),
  });
};

const boxPlate = (v: NeckPlate): MadePlate => {
  const { flangeMm } = boxOf(v);
  const foot = { lengthMm: flangeMm };
  const built = hatPart(v, hatAsk(v), {
    footA: foot,
    footB: foot,
    holesA: ['tube', []],
    holesB: ['tube', []],
    holesCrown: ['tube', []],
  });
  const { part, findings = [] } = built;
  if (part === undefined) return { findings };
  const { alongMm, edgeMm } = flangeBolts(v);
  const holesOf = (id: string): readonly Cutout[] => {
    if (id === 'crown')
      return [neckHole(plateHole(v), [hatAsk(v).widthMm / 2, holeOnFaceMm(v)], v.thicknessMm)];
    if (id === 'foot A') return alongMm.map((x, i) => bolt(v, [x, edgeMm], i + 1, 'panel'));
    return id === 'foot B'
      ? alongMm.map((x, i) => bolt(v, [x, flangeMm - edgeMm], i + 1, 'panel'))
      : [];
  };
  const cheeks = cheeksOf(v);
  return {
    part: {
      ...part,
      panels: [
        ...part.panels.map((panel) => ({ ...panel, cutouts: holesOf(panel.id) })),
        ...cheeks.panels,
      ],
      folds: [...part.folds, ...cheeks.foldsOf(part)],
      wishes: boxWishes(v, part.wishes ?? []),
    },
    findings,
  };
};

/** What the flanges cover, with their bolts, and the opening between them. */
const boxPatch = (v: NeckPlate): Part => {
  const { baseMm, wideMm, flangeMm } = boxOf(v);
  const { alongMm, edgeMm } = flangeBolts(v);
  const flange = flangeMm - v.thicknessMm;
  const long = baseMm + 2 * flange;
  const side = besideBoxMm(v);
  // The low wall is drawn above, since that is the way in which the neck leans.
  const from = long - flange;
  const opening: Cutout =
    v.mount === 'raised'
      ? neckHole(panelHole(v), [wideMm / 2, from - axisOnPanelMm(v)], v.panelThickness)
      : { kind: 'loop', from: 'box', inputs: ['panelClear'], loop: boxOpening(v, flange) };
  const bolts = [edgeMm, long - edgeMm].flatMap((y, row) =>
    alongMm.map((x, i) => bolt(v, [x, y], row * v.bolts + i + 1, 'plate')),
  );
  return assemble(v, {
    root: 'panel hole',
    panels: [
      {
        id: 'panel hole',
        outline: withNotch(rectangle(-side, 0, wideMm + 2 * side, long), [wideMm / 2, long]),
        cutouts: [opening, ...bolts],
      },
    ],
    folds: [],
    wishes: patchWishes(v, 0),
  });
};

/** A sunk box, with room for the rounding of its flanges. */
const boxOpening = (v: NeckPlate, flange: number): Loop => {
  const { baseMm, wideMm } = boxOf(v);
  const [clear, round] = [v.panelClear, Math.max(v.panelClear, v.insideRadiusMm)];
  const bare = rectangle(-clear, flange - round, wideMm + 2 * clear, baseMm + 2 * round);
  const rounded = roundCorners(bare, [0, 1, 2, 3], round, [0, 0, 0, 0], 'round');
  return rounded.ok ? rounded.loop : bare;
};

const wayNote = (v: NeckPlate): Finding => {
  const where =
    v.mount === 'flat'
      ? `In the plate of ${figure(v.thicknessMm)} the middle of the hole is that of the plate; in the panel of ${figure(v.panelThickness)} under it, it lies ${figure(shiftMm(v, (v.thicknessMm + v.panelThickness) / 2))} farther from the notch`
      : v.mount === 'raised'
        ? `The neck leans towards the low wall, and passes the panel ${figure(axisOnPanelMm(v))} from the outside of that`
        : 'The neck goes square into the sunk face, and leans towards the low wall on the side away from the panel';
  return note(
    'neck-way',
    `${where}. Lay the patch panel-hole on the panel with its notch the way in which the neck leans outside, and mark the opening and the bolts through it; it is no part of the neck, and may be cut from any scrap.`,
  );
};
