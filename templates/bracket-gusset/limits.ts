import { figure, type Finding, isOver, orLess, orMore, refuse } from '../../src/template.ts';
import { noseMm, type OutsideGusset } from './sizes.ts';

/**
 * Findings on what cannot be folded, each with a figure that can be. Cheeks mean nothing on legs
 * that are all bend.
 */
export function impossibleGusset(v: OutsideGusset): Finding[] {
  const legs = (['base', 'upright'] as const).flatMap((input) => allBend(v, input));
  return legs.length > 0 ? legs : cheeks(v);
}

function allBend(v: OutsideGusset, input: 'base' | 'upright'): Finding[] {
  const taken = v.insideRadiusMm + v.thicknessMm;
  if (v[input] > taken) return [];
  const largest = v[input] - 2 * v.thicknessMm;
  const mends = [
    orMore(input, taken + v.thicknessMm - v.added),
    ...(largest >= 0 ? [orLess('radius', largest)] : []),
  ];
  return [
    refuse('leg-too-short', [input], `${input} ${figure(v[input] - v.added)} is all bend`, mends),
  ];
}

function cheeks(v: OutsideGusset): Finding[] {
  const given = (input: 'base' | 'upright' | 'gussetDepth' | 'gussetHeight'): string =>
    `${input} ${figure(v[input] - v.added)}`;
  const findings: Finding[] = [];
  if (isOver(v.gussetDepth, v.base)) {
    findings.push(
      refuse(
        'gusset-too-deep',
        ['gussetDepth', 'base'],
        `${given('gussetDepth')} is more than ${given('base')}`,
        [orLess('gussetDepth', v.base - v.added), orMore('base', v.gussetDepth - v.added)],
      ),
    );
  }
  if (isOver(v.gussetHeight, v.upright)) {
    findings.push(
      refuse(
        'gusset-too-high',
        ['gussetHeight', 'upright'],
        `${given('gussetHeight')} is more than ${given('upright')}`,
        [orLess('gussetHeight', v.upright - v.added), orMore('upright', v.gussetHeight - v.added)],
      ),
    );
  }
  if (v.gussetHeight <= noseMm(v)) {
    findings.push(
      refuse(
        'gusset-too-low',
        ['gussetHeight'],
        `${given('gussetHeight')} leaves no triangle above the bend`,
        [orMore('gussetHeight', noseMm(v) + v.thicknessMm - v.added)],
      ),
    );
  }
  return findings;
}
