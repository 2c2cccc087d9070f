import type { Folder } from '../../model/machine.ts';
import { BED, CLASS_SIZES, illustrative, LESSON, setting } from './sources.ts';
import { practice, published } from '../sourced.ts';

/** A small shop's box-and-pan folder: fingers under a beam. */
export const BOX_PAN: Folder = {
  kind: 'folder',
  id: 'boxpan-1250x2.0',
  name: 'manual box-and-pan (finger) folder, 1250 mm x 2.0 mm mild steel',
  workingLengthMm: published(1250, CLASS_SIZES),
  capacityMm: published(2, 'instruction guide for 4-foot box brakes of 12, 14 and 16 gauge class'),
  bedDepthMm: published(300, BED),
  noseSetbackMm: illustrative(
    2,
    'seen from above, the gap between nose tip and leaf face when the leaf stands at 90 degrees',
  ),
  noseDepthMm: illustrative(50, 'nose tip to heel of a finger, front to back'),
  noseFrontMm: illustrative(
    25,
    'how far behind the nose tip the vertical front of the finger lies',
  ),
  noseBevelDeg: illustrative(45, 'angle between underside and front bevel of the nose'),
  clampHeightMm: illustrative(100, 'nose tip to the top of a finger'),
  leafEdgeMm: illustrative(
    { barFitted: 20, barRemoved: 8 },
    'thickness of the leaf at its top edge, with its bar and without',
  ),
  isLeafBarFitted: illustrative(true, 'whether the bar is on the leaf'),
  stiffenerMm: illustrative(
    { projection: 60, startsBelow: 60, endsBelow: 200 },
    'how far the angle iron sticks out, and at which depth it begins',
  ),
  clampLandMm: setting(10, 'behind where the nose rests; no source found'),
  minFlangeMm: setting(
    8,
    'for thin sheet; a 4-foot box brake is rated for a 25 mm flange at full capacity',
  ),
  maxAngleDeg: illustrative(135, 'dealers quote about 120 as the practical limit'),
  overbendDeg: published(5, `${LESSON}; two more for stronger sheet`),
  maxUncoveredMm: setting(15, 'longer gaps give a soft, rounded end of the fold'),
  clamp: {
    kind: 'fingers',
    boxDepthMm: illustrative(
      100,
      'nose tip up to the underside of the beam that carries the fingers',
    ),
    beamDepthMm: illustrative(120, 'nose tip back to the rear of the upper beam'),
    widthsMm: illustrative(
      [25, 30, 35, 40, 45, 50, 75, 100, 150, 200, 250, 250],
      'measure each finger',
    ),
    sideClearMm: practice(1),
  },
};
