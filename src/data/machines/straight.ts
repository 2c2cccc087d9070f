import type { Folder } from '../../model/machine.ts';
import { BED, illustrative, LESSON, setting } from './sources.ts';
import { published } from '../sourced.ts';

/** A straight folder: the clamp beam is one piece. */
export const STRAIGHT: Folder = {
  kind: 'folder',
  id: 'straight-2000x1.5',
  name: 'manual straight folder, one-piece clamp beam, 2000 mm x 1.5 mm mild steel',
  workingLengthMm: published(2000, LESSON),
  capacityMm: published(1.5, LESSON),
  bedDepthMm: published(300, BED),
  noseSetbackMm: illustrative(
    1.5,
    'the gap between nose tip and leaf face when the leaf stands at 90 degrees',
  ),
  noseDepthMm: illustrative(110, 'nose tip back to the rear of the beam'),
  noseFrontMm: illustrative(35, 'how far behind the nose tip the vertical front of the beam lies'),
  noseBevelDeg: illustrative(45, 'angle between underside and front bevel of the nose'),
  clampHeightMm: illustrative(200, 'nose tip to the top of the beam'),
  leafEdgeMm: illustrative(
    { barFitted: 20, barRemoved: 8 },
    'thickness of the leaf at its top edge, with its bar and without',
  ),
  isLeafBarFitted: illustrative(true, 'whether the bar is on the leaf'),
  stiffenerMm: illustrative(
    { projection: 60, startsBelow: 60, endsBelow: 200 },
    'how far the angle iron sticks out, and at which depth it begins',
  ),
  clampLandMm: setting(10, 'no source found'),
  minFlangeMm: setting(8, 'for thin sheet'),
  maxAngleDeg: null,
  overbendDeg: published(5, `${LESSON}; two more for stronger sheet`),
  maxUncoveredMm: setting(15, 'longer gaps give a soft, rounded end of the fold'),
  clamp: {
    kind: 'one piece',
    endOverhang: illustrative(
      true,
      'whether a standing flange can hang outside the end of beam and leaf',
    ),
  },
};
