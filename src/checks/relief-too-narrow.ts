import { lacks } from '../model/measured.ts';
import { atLeast, figure } from '../text/figures.ts';
import { acrossLoop } from '../geometry/across.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import type { FlatVertex } from '../model/flat.ts';
import { warn } from '../model/finding.ts';
import { type Check, cutterName, impossible } from './check.ts';

/** A relief notch narrower than the cutter can cut. */
export const reliefTooNarrow: Check = {
  rule: 'relief-too-narrow',
  title: 'A relief notch is narrower than the cutter can cut.',
  severities: ['stop', 'warn'],
  reason:
    'A notch narrower than the cut is cut over its edges or left out, and the sheet tears where the fold ends.',
  source: 'least slot of the cutter in the shop file; that of the built-in shop is common practice',
  measured: 'the narrowest relief against the least slot of the cutter',
  mend: 'Set leastSlot to what the message names.',
  run: ({ flat, shop, cutting }) => {
    if (cutting === undefined) return [];
    const { cutter, kerfMm, limitMm } = cutting;
    const least = limitMm(cutter.leastSlot);
    const across = acrossLoop(flat.outline, 'right', (piece) =>
      isRelief(flat.outline[piece]),
    ).filter(({ widthMm }) => widthMm < least - NOISE_MM);
    if (across.length === 0) return [];
    const narrowest = across.reduce((a, b) => (a.widthMm <= b.widthMm ? a : b));
    const panels = [
      ...new Set(
        across
          .map(({ piece }) => (flat.outline[piece] as FlatVertex).origin)
          .flatMap((o) => (o.kind === 'relief' ? [o.panel] : [])),
      ),
    ];
    const message =
      `The reliefs of ${panels.join(', ')} are ${figure(narrowest.widthMm)} mm wide at the narrowest; ${cutterName(cutter)} asks for ${figure(least)} mm. ` +
      `Set leastSlot to ${atLeast(least)} or more.`;
    return [
      {
        ...(narrowest.widthMm < kerfMm
          ? impossible(shop, reliefTooNarrow, message)
          : warn(reliefTooNarrow, message)),
        inputs: ['leastSlot'],
        ...(panels.length === 1 && { panel: panels[0] }),
        at: narrowest.at,
        ...lacks(narrowest.widthMm, least),
      },
    ];
  },
};

const isRelief = (vertex: FlatVertex | undefined): boolean => vertex?.origin.kind === 'relief';
