import { measuredRadiusMm } from '../bending/rules/measured.ts';
import type { OwnInputs, TemplateValues } from '../forms/template.ts';
import { bendTable, cutterFor, isAssumedIn, kerfOf, limitOf, type Shop } from '../model/shop.ts';

/**
 * The values of a part, with what its shop knows in place of general assumptions. Bends by the rule
 * `measured` get the inside radius of their tool where no radius was given. A shop of the user's
 * own also gives the narrowest slot of its cutter and its weld gap where those inputs were not
 * given.
 */
export function withShop(
  values: TemplateValues<OwnInputs>,
  raw: Readonly<Record<string, unknown>>,
  shop: Shop,
): TemplateValues<OwnInputs> {
  const isGiven = (name: string, flag: string): boolean =>
    raw[name] !== undefined || raw[flag] !== undefined;
  const { rule, material, thicknessMm, insideRadiusMm } = values;
  const rows = rule.id === 'measured' ? bendTable(shop, material.id) : [];
  const measured = isGiven('radius', 'radius')
    ? undefined
    : measuredRadiusMm(rows, { thicknessMm, insideRadiusMm, angleDeg: 90 });
  return {
    ...values,
    ...(rule.id === 'measured' && { rule: { id: 'measured', rows } }),
    ...(measured !== undefined && { insideRadiusMm: measured }),
    ...(!isAssumedIn(shop, 'cutters') &&
      !isGiven('leastSlot', 'least-slot') && {
        leastSlotMm: leastSlotMm(shop, values) ?? values.leastSlotMm,
      }),
    ...(!isAssumedIn(shop, 'weldGap') &&
      !isGiven('cornerGap', 'corner-gap') && { cornerGapMm: shop.weldGap }),
  };
}

/** The least value of the input, so that a cut without width still gives a slot. */
const LEAST_SLOT_MM = 0.05;

const leastSlotMm = (
  shop: Shop,
  { material, thicknessMm }: TemplateValues<OwnInputs>,
): number | undefined => {
  const cutter = cutterFor(shop, thicknessMm);
  return (
    cutter &&
    Math.max(
      LEAST_SLOT_MM,
      limitOf(cutter.leastSlot, thicknessMm, kerfOf(cutter, material.family, thicknessMm)),
    )
  );
};
