import { CONTACT_GAP_MM } from '../../geometry/tolerance.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { Vec3 } from '../../geometry/vec3.ts';
import { prism, type Solid } from '../../geometry/convex-solid.ts';
import { bodiesOf } from './bodies.ts';
import { SPRING_MM, SPRING_SHARE } from './helps.ts';
import type { FoldNet, NetPanel } from './net.ts';

const sprung = new WeakMap<FoldNet['panels'], Map<number, FoldNet['panels']>>();

/**
 * The same part with metal that springs aside: its bodies may reach into each other by as much more
 * than the contact gap. Nothing slips between the pieces of one panel. Its panels are remembered, so that what is known
 * of them is known of the part when it is asked for again.
 *
 * @param springMm how far it springs in the plane of a panel
 */
export const springing = (net: FoldNet, springMm = SPRING_MM): FoldNet => ({
  ...net,
  panels: sprungPanels(net, springMm),
});

const sprungPanels = ({ panels, thicknessMm }: FoldNet, springMm: number): FoldNet['panels'] => {
  const ofPanels = sprung.get(panels) ?? new Map<number, FoldNet['panels']>();
  sprung.set(panels, ofPanels);
  const found =
    ofPanels.get(springMm) ??
    panels.map((panel): NetPanel => ({
      ...panel,
      lessGap: shrunk(panel.solids, thicknessMm, springMm),
    }));
  ofPanels.set(springMm, found);
  return found;
};

const shrunk = (solids: readonly Solid[], thicknessMm: number, springMm: number): Solid[] => {
  const skin =
    Math.min(CONTACT_GAP_MM, thicknessMm / 4) + Math.min(springMm, SPRING_SHARE * thicknessMm);
  return bodiesOf(solids.map(outlineOf), undefined, CONTACT_GAP_MM + springMm)
    .filter(({ lessGap }) => lessGap.length > 2)
    .map(({ lessGap }) => prism(lessGap, skin, thicknessMm - skin));
};

/** The outline of a prism, or of a flat body, on its panel: its first face. */
const outlineOf = ({ corners, faces: [first = []] }: Solid): Vec2[] =>
  first.map((i): Vec2 => {
    const [x, y] = corners[i] as Vec3;
    return [x, y];
  });
