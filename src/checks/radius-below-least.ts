import { lacks } from '../model/measured.ts';
import { middle } from '../geometry/vec2.ts';
import { leastRadiusMm } from '../bending/least-radius.ts';
import { atLeast, figure } from '../text/figures.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import { warn } from '../model/finding.ts';
import type { Check } from './check.ts';

/** A bend tighter than the sheet takes without cracking. */
export const radiusBelowLeast: Check = {
  rule: 'radius-below-least',
  title: 'A bend is tighter than its sheet takes.',
  severities: ['warn'],
  reason: 'The outside of a bend that is too tight for its sheet cracks.',
  source: 'the least inside radius of the material; its own source stands in the catalogue',
  measured: 'the inside radius against the least of material and thickness',
  mend: 'Give a larger radius, and fold across the rolling direction.',
  run: ({ flat, material }) => {
    const tight = flat.bends
      .map((bend) => ({ ...bend, least: leastRadiusMm(material, flat.thicknessMm, bend.angleDeg) }))
      .filter((bend) => bend.insideRadiusMm < bend.least - NOISE_MM);
    if (tight.length === 0) return [];
    const bends = `${tight.length === 1 ? 'Bend' : 'Bends'} ${tight.map((bend) => bend.id).join(', ')}`;
    const given = [...new Set(tight.map((bend) => figure(bend.insideRadiusMm)))].join(' and ');
    const least = Math.max(...tight.map((bend) => bend.least));
    const sheet = `${material.name} at ${figure(flat.thicknessMm)} mm (${material.leastRadius.source})`;
    const message =
      `${bends}: inside radius ${given} is under the least of ${sheet}. ` +
      `Use ${atLeast(least)} or more, across the rolling direction.`;
    const worst = tight.reduce((a, b) =>
      b.least - b.insideRadiusMm > a.least - a.insideRadiusMm ? b : a,
    );
    return [
      {
        ...warn(radiusBelowLeast, message),
        inputs: ['radius'],
        at: middle(...worst.centreLine),
        ...lacks(worst.insideRadiusMm, worst.least),
      },
    ];
  },
};
