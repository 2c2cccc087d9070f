import { dot, type Vec2 } from '../geometry/vec2.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { Part } from '../model/part.ts';
import type { AngleWish, Facing, Feature, LengthWish } from '../model/wish.ts';
import type { AskedAngle, AskedMeasure, Place } from './asked.ts';
import { freeLinesOf, type PanelLine } from './panel-lines.ts';

/** What the inputs of a part mean on it, as lengths to be found between what can be touched. */
export const wishedMeasures = (part: Part, flat: FlatPattern): AskedMeasure[] => {
  const placeOf = placeFinder(part, flat);
  return lengths(part).map(({ input, mm, between }) => {
    // A plane is what distances are taken from.
    const places = between.map(placeOf).sort((a, b) => Number(a.kind === 'face') - Number(b.kind === 'face'));
    return { name: input, askedMm: mm, between: places, input };
  });
};

/** What they mean as angles between faces. */
export const wishedAngles = (part: Part): AskedAngle[] =>
  (part.wishes ?? []).filter((w): w is AngleWish => w.kind === 'angle').map(({ input, deg, panels }) => ({ name: input, askedDeg: 180 - Math.abs(deg), fold: null, panels, input }));

const lengths = (part: Part): LengthWish[] => (part.wishes ?? []).filter((w): w is LengthWish => w.kind === 'length');

const placeFinder = (part: Part, flat: FlatPattern): ((feature: Feature) => Place) => {
  const holes = new Map(flat.cutouts.map((c, of) => [`${c.panel}: ${c.from}`, of] as const));
  const lines = new Map<string, readonly PanelLine[]>();
  return (feature) => {
    const { panel } = feature;
    switch (feature.kind) {
      case 'face':
        return { kind: 'face', panel, heightMm: feature.face === 'lower' ? 0 : part.thicknessMm };
      case 'fold':
        return { kind: 'mould', panel, fold: feature.fold, measure: feature.measure };
      case 'hole':
        return { kind: 'centre', panel, of: holes.get(`${panel}: ${feature.from}`) ?? NOWHERE };
      case 'edge': {
        const own = lines.get(panel) ?? freeLinesOf(flat, part.panels.find((p) => p.id === panel));
        lines.set(panel, own);
        return edgeFacing(own, feature.facing)?.place ?? { kind: 'edge', panel, of: NOWHERE, from: [0, 0], to: [0, 0] };
      }
    }
  };
};

/** No hole of a blank: what was to be measured is not there, and is told so. */
const NOWHERE = 1e9;

const WAY: Readonly<Record<Facing, Vec2>> = { left: [-1, 0], right: [1, 0], up: [0, 1], down: [0, -1] };

/** An edge that is turned farther away, 30 degrees, looks another way. */
const LEAST_FACING = Math.cos(Math.PI / 6);

const edgeFacing = (lines: readonly PanelLine[], facing: Facing): PanelLine | undefined => {
  const way = WAY[facing];
  const out = ({ dir: [x, y] }: PanelLine): number => y * way[0] - x * way[1];
  const looking = lines.filter((l) => out(l) > LEAST_FACING);
  return looking.reduce<PanelLine | undefined>((best, l) => (best === undefined || dot(l.middle, way) > dot(best.middle, way) ? l : best), undefined);
};
