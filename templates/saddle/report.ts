import { formerRadiusMm, type Report } from '../../src/template.ts';
import type { Saddle } from './inputs.ts';
import { boltsMm, hugRadiusMm, type Profile } from './sizes.ts';

/** The figures that the clip is formed and fitted by. */
export const saddleReport = (v: Saddle, profile: Profile): Report => ({
  figures: [
    {
      name: 'hug',
      value: profile.hugDeg,
      unit: 'deg',
      about: 'How far the metal goes round the tube.',
    },
    {
      name: 'former',
      value: 2 * formerRadiusMm(v.material, hugRadiusMm(v), v.thicknessMm),
      unit: 'mm',
      about: 'Diameter of the pipe or bar that the hug is formed round; it springs open from that.',
    },
    {
      name: 'ear bend',
      value: profile.earDeg,
      unit: 'deg',
      about: 'Angle of the bends of the ears.',
    },
    {
      name: 'straight',
      value: profile.straightMm,
      unit: 'mm',
      about: 'Straight metal between the hug and the bend of an ear.',
    },
    ...(v.kind === 'halves'
      ? []
      : [
          {
            name: 'seat',
            value: profile.seatMm,
            unit: 'mm',
            about: "Height of the tube's middle over the surface, before the bolts are tightened.",
          },
        ]),
    {
      name: 'bolt',
      value: boltsMm(v, profile)[0],
      unit: 'mm',
      about: 'From the middle of the tube to the middle of the bolt.',
    },
    {
      name: 'gap',
      value: v.gap,
      unit: 'mm',
      about:
        v.kind === 'saddle'
          ? 'What each ear stands over the surface when the clip hugs the tube.'
          : 'What the ears stand apart when the clip hugs the tube.',
    },
  ],
});
