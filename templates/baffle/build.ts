import {
  assemble,
  cornerInput,
  cornerMm,
  figure,
  note,
  rectangle,
  roundFreeCorners,
  warn,
} from '../../src/template.ts';
import type {
  CommonValues,
  Finding,
  FreeCorner,
  GivenFold,
  Panel,
  Part,
} from '../../src/template.ts';
import { impossibleBaffle, outsideFlangeMm } from './limits.ts';
import { openingsOf } from './openings.ts';
import {
  type BaffleAsk,
  goneMm,
  type Plate,
  type PlateCorner,
  plateOf,
  plateOutline,
  type PlateSide,
  sideAt,
} from './plate.ts';
import { edgeMm, sectionAreaMm2 } from './section.ts';
import { baffleWishes } from './wishes.ts';

/** How much a baffle leaves open, and how tall it is. */
export interface BaffleFigures {
  /** Area of the tank's section at the baffle. */
  readonly sectionMm2: number;
  /** Area of flow holes, corner cuts and holes at given places, without the clearance all round. */
  readonly openMm2: number;
  /** Open share of the section. */
  readonly openPercent: number;
  readonly flowHoles: number;
  /** Length of the longer of its two upright edges, on mould lines. */
  readonly depthMm: number;
}

export interface MadeBaffle {
  /** The part; missing when a finding is a stop. */
  readonly part?: Part;
  readonly findings: readonly Finding[];
  readonly figures: BaffleFigures;
}

/**
 * ISO 21487 (fuel tanks of small craft) limits the openings of a baffle to this share of the tank's
 * section, %; after a summary of it.
 */
export const MOST_OPEN_PERCENT = 30;

/** Margin for rounding: a share this near to the limit counts as at the limit. */
const NOISE_PERCENT = 1e-9;

/**
 * One baffle: a plate with flanges folded up square to walls and roof and along the floor, its root
 * panel `baffle`. Lengths are measured over outside mould lines, since flanges lie with their
 * outside against the tank.
 */
export function baffle(v: CommonValues, ask: BaffleAsk): MadeBaffle {
  const plate = plateOf(v, ask);
  const sectionMm2 = sectionAreaMm2(ask.section);
  const depthMm = Math.max(edgeMm(plate.corners, 1), edgeMm(plate.corners, 3));
  const figures = { sectionMm2, openMm2: 0, openPercent: 0, flowHoles: 0, depthMm };
  const impossible = impossibleBaffle(v, ask, plate);
  if (impossible.length > 0) return { findings: impossible, figures };

  const openings = openingsOf(v, ask, plate);
  const flanges = plate.sides.flatMap((side, i) =>
    side.hasFlange ? [flange(v, ask, plate, side, i)] : [],
  );
  const findings = [...openings.findings, ...flanges.flatMap((f) => f.findings)];
  const openPercent = (100 * openings.areaMm2) / sectionMm2;
  const made = {
    ...figures,
    openMm2: openings.areaMm2,
    openPercent,
    flowHoles: openings.flowCount,
  };
  if (findings.some((f) => f.severity === 'stop')) return { findings, figures: made };
  const root: Panel = {
    id: 'baffle',
    outline: plateOutline(plate),
    cutouts: openings.cutouts,
  };
  return {
    part: assemble(
      { ...v, measure: 'outside' },
      {
        root: 'baffle',
        panels: [root, ...flanges.map((f) => f.panel)],
        folds: flanges.map((f) => f.fold),
        wishes: baffleWishes(v, ask, openings.flowCount),
      },
    ),
    findings: [...findings, ...tooOpen(openPercent), ...unusedRadius(v, plate)],
    figures: made,
  };
}

const tooOpen = (percent: number): Finding[] =>
  percent > MOST_OPEN_PERCENT + NOISE_PERCENT
    ? [
        warn(
          'baffle-too-open',
          `The openings are ${figure(percent, 1)} % of the tank's section; ISO 21487 (fuel tanks of small craft, after a summary) allows ${MOST_OPEN_PERCENT} %. Give fewer or smaller holes, or smaller corner cuts.`,
        ),
      ]
    : [];

const unusedRadius = (v: CommonValues, plate: Plate): Finding[] =>
  cornerMm(v) > 0 && !plate.sides.some((side, i) => side.hasFlange && freeEnds(plate, i).length > 0)
    ? [
        note(
          'corner-radius-unused',
          `${cornerInput(v)} is for the ends of flanges that stand clear of their neighbours; this baffle has none.`,
        ),
      ]
    : [];

/**
 * Corners of a flange's panel that meet no other flange: its right one is at the start of its edge,
 * its left one at the end.
 */
const freeEnds = ({ made, sides }: Plate, i: number): FreeCorner[] => {
  const isFree = (corner: number, neighbour: number): boolean =>
    goneMm(made[corner] as PlateCorner) > 0 || !sideAt(sides, neighbour).hasFlange;
  const corner = (end: 'right' | 'left', isOne: boolean): FreeCorner[] =>
    isOne ? [['top', end]] : [];
  return [...corner('right', isFree(i, i - 1)), ...corner('left', isFree((i + 1) % 4, i + 1))];
};

/**
 * A flange on what is left of its edge. Folds are named A at the floor and then round the plate:
 * right B, roof C, left D.
 */
function flange(v: CommonValues, ask: BaffleAsk, plate: Plate, side: PlateSide, i: number) {
  const gone = [i, (i + 1) % 4].reduce((sum, c) => sum + goneMm(plate.made[c] as PlateCorner), 0);
  const id = `${side.side} flange`;
  const width = edgeMm(plate.corners, i) - gone;
  const shape = roundFreeCorners(
    id,
    rectangle(0, 0, width, outsideFlangeMm(v, ask, side)),
    freeEnds(plate, i),
    v,
    { right: side.setbackMm, left: side.setbackMm },
  );
  const fold: GivenFold = {
    id: 'ABCD'.charAt(i),
    parent: { panel: 'baffle', edge: side.side },
    child: { panel: id, edge: 'bottom' },
    angleDeg: side.bendDeg,
    direction: 'up',
    insideRadiusMm: v.insideRadiusMm,
  };
  const panel: Panel = { id, outline: shape.outline, cutouts: [] };
  return { panel, fold, findings: shape.findings };
}
