import { runChecks } from '../../src/checks/index.ts';
import { findMaterial } from '../../src/data/materials.ts';
import { rectangle } from '../../src/geometry/loop.ts';
import type { Finding } from '../../src/model/finding.ts';
import type { FlatBend, FlatCutout, FlatPattern, Origin } from '../../src/model/flat.ts';
import type { Material } from '../../src/model/material.ts';
import type { Shop } from '../../src/model/shop.ts';
import { shopWith } from './shops.ts';

/** A material of the catalogue, or a failed test. */
export const material = (id: string): Material => {
  const found = findMaterial(id);
  if (!found.ok) throw new Error(found.reason);
  return found.value;
};

export const round = (from: string, x: number, y: number, diameterMm: number): FlatCutout => ({
  kind: 'round',
  panel: 'leg A',
  from,
  centre: [x, y],
  diameterMm,
});

/** A bend between y = 50 and y = 57 of a plate 100 wide. */
export const BEND: FlatBend = {
  id: 'A',
  parent: 'leg A',
  child: 'leg B',
  angleDeg: 90,
  direction: 'up',
  insideRadiusMm: 3,
  rule: 'k:0.42',
  allowanceMm: 7,
  setbackMm: 6,
  deductionMm: 5,
  kFactor: 0.42,
  parentTangent: [
    [100, 50],
    [0, 50],
  ],
  childTangent: [
    [100, 57],
    [0, 57],
  ],
  centreLine: [
    [0, 53.5],
    [100, 53.5],
  ],
};

const EDGE: Origin = { kind: 'edge', panel: 'leg A', edge: 0 };

/** A rectangle of an outline that is all edges of one panel. */
export const sheet = (width: number, height: number): FlatPattern['outline'] =>
  rectangle(0, 0, width, height).map((v) => ({ ...v, origin: EDGE }));

/** A plate 100 x 100 of 3 mm with one bend across it. */
export const plate = (
  cutouts: readonly FlatCutout[],
  change: Partial<FlatPattern> = {},
): FlatPattern => ({
  name: 'plate',
  thicknessMm: 3,
  outline: sheet(100, 100),
  cutouts,
  bends: [BEND],
  panels: [],
  widthMm: 100,
  heightMm: 100,
  areaMm2: 10_000,
  findings: [],
  ...change,
});

/** Findings of the checks against a shop that cuts anything, unless another one is given. */
export const findingsOf = (
  flat: FlatPattern,
  {
    id = 's235',
    shop = shopWith(),
    isMirrored = false,
  }: { id?: string; shop?: Shop; isMirrored?: boolean } = {},
): Finding[] => runChecks({ flat, material: material(id), shop, isMirrored });
