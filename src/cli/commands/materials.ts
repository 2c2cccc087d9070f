import { printedIn } from '../../text/printed.ts';
import { PRINT_FLAGS, printedFor } from '../output-flags.ts';
import { MATERIALS } from '../../data/materials.ts';
import { figure } from '../../text/figures.ts';
import type { LeastRadius, Material } from '../../model/material.ts';
import type { Console } from '../console.ts';
import { EXIT } from '../failure.ts';
import { flagsOf } from '../flags-of.ts';
import { inLines } from '../terminal.ts';
import type { RunCommand } from './index.ts';

/**
 * `materials`: the sheet catalogue, every figure with its source. JSON: `{"materials":[...]}`,
 * whole entries.
 */
export const materials = (json: boolean, { out }: Console, print = printedIn()): number => {
  if (json) out(JSON.stringify({ materials: MATERIALS }));
  else out(inLines(MATERIALS.map((m) => print.words(entry(m))).join('\n\n')));
  return EXIT.made;
};

const entry = (m: Material): string => {
  const [least, most] = m.tensileMpa.value;
  return [
    `${m.id}  (${m.name}) - ${m.remark}`,
    `  density   ${figure(m.densityKgM3.value)} kg/m3 [${m.densityKgM3.source}]`,
    `  yield     ${m.yieldMpa.value === null ? 'none guaranteed' : `${m.yieldMpa.value} MPa`} [${m.yieldMpa.source}]`,
    `  tensile   ${least}${most === null ? ' or more' : ` to ${most}`} MPa [${m.tensileMpa.source}]`,
    `  stretch   ${m.elongationPct.value} % before it breaks [${m.elongationPct.source}]`,
    `  modulus   ${m.modulusMpa.value} MPa [${m.modulusMpa.source}]`,
    `  stock     ${m.stockThicknessesMm.value.join(', ')} mm [${m.stockThicknessesMm.source}]`,
    `  radius    least inside radius ${radii(m.leastRadius.value)} [${m.leastRadius.source}]`,
    `  gauges    ${m.gaugeScale === null ? 'no scale all agree on' : `the ${m.gaugeScale} scale`}`,
  ].join('\n');
};

const radii = (classes: readonly LeastRadius[]): string =>
  classes
    .map((c) => `${'factor' in c ? `${c.factor} t` : c.radiusMm} up to ${c.upToMm} mm`)
    .join(', ');

export const run: RunCommand = async (args, console) => {
  const flags = await flagsOf(args, console, { usage: 'materials', flags: PRINT_FLAGS, words: 1 });
  return flags === undefined
    ? EXIT.made
    : materials(flags['json'] === true, console, printedFor(flags));
};
