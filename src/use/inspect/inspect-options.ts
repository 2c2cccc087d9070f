import { findMaterial } from '../../data/materials.ts';
import { DEFAULT_SHOP } from '../../data/shop-default.ts';
import type { UnstatedUnit } from '../../dxf/read/units.ts';
import type { InputProblem } from '../../forms/problem.ts';
import type { InspectOptions } from '../../inspect/inspect.ts';
import type { Shop } from '../../model/shop.ts';
import { parseLength } from '../../text/units.ts';
import type { Refused } from '../use-case.ts';

/** How a file is inspected, as typed; everything may be left out. */
export interface GivenInspection {
  /** Thickness of the sheet; without it holes and webs are not judged. */
  readonly thickness?: string | undefined;
  /** Material; S275 when left out. */
  readonly material?: string | undefined;
  readonly units?: UnstatedUnit | undefined;
  /** Widest gap that is joined; 1 mm when left out. */
  readonly gap?: string | undefined;
  /** Length below which a line is short; 0.1 mm when left out. */
  readonly short?: string | undefined;
  /** Allowed error; 0.01 mm when left out. */
  readonly error?: string | undefined;
  /** The shop; an assumed small shop when left out. */
  readonly shop?: Shop | undefined;
}

/** Reads how a file is to be inspected; everything that is wrong with it is told at once. */
export function inspectOptions(
  given: GivenInspection,
): Refused | { readonly ok: true; readonly options: InspectOptions } {
  const problems: InputProblem[] = [];
  const length = <T>(
    name: 'thickness' | 'gap' | 'short' | 'error',
    most: number,
    otherwise: T,
  ): number | T => {
    const text = given[name];
    if (text === undefined) return otherwise;
    const parsed = parseLength(text);
    if (parsed.ok && parsed.value > 0.0001 && parsed.value <= most) return parsed.value;
    problems.push({
      input: name,
      given: `'${text}'`,
      allowed: `a length over 0 and up to ${most} mm`,
      ...(parsed.ok ? {} : { mend: parsed.reason }),
    });
    return otherwise;
  };
  const material = findMaterial(given.material ?? 's275');
  if (!material.ok)
    problems.push({
      input: 'material',
      given: `'${given.material ?? ''}'`,
      allowed: 'a material of blankwright materials',
      mend: material.reason,
    });
  const lengths = {
    thicknessMm: length('thickness', 100, undefined),
    gapMm: length('gap', 20, 1),
    shortMm: length('short', 100, 0.1),
    errorMm: length('error', 1, 0.01),
  };
  if (problems.length > 0 || !material.ok) return { ok: false, problems };
  const { units, shop = DEFAULT_SHOP } = given;
  return { ok: true, options: { ...lengths, units, material: material.value.family, shop } };
}
