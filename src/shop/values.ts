import { measuredRadiusMm } from '../bending/rules/measured.ts';
import type { OwnInputs, TemplateValues } from '../forms/template.ts';
import { bendTable, cutterFor, kerfOf, limitOf, type Shop } from '../model/shop.ts';

/**
 * The values of a part with what its shop knows in place of what everybody assumes: the bends of
 * the rule `measured` with the inside radius that their tool gives, where no radius was given, and,
 * where a shop of the user's own is there and the input was not given, the narrowest slot of its
 * cutter and its weld gap.
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
    ...(!shop.isAssumed &&
      !isGiven('leastSlot', 'least-slot') && {
        leastSlotMm: leastSlotMm(shop, values) ?? values.leastSlotMm,
      }),
    ...(!shop.isAssumed && !isGiven('cornerGap', 'corner-gap') && { cornerGapMm: shop.weldGap }),
  };
}

/** Never under what an input may be, so that a line without width still cuts a slot. */
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
