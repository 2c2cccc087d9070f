import type { TubeCalibration } from '../../contract/tube-calibration.ts';
import { figure } from '../../text/figures.ts';

/** What test bends told, as a person reads it. */
export const calibrateTubeText = (found: TubeCalibration): string => {
  const { fixedDeg, share, spreadDeg } = found.springback;
  const radius = found.effectiveRadius;
  return [
    `${found.bender}, tube of ${figure(found.tubeMm)} mm, former of ${figure(found.radiusMm)} mm: ${found.bends} test bends`,
    `  springback ${figure(fixedDeg)} deg at every bend and ${figure(100 * share)} % of the angle: for 90 pull to ${figure(90 * (1 + share) + fixedDeg, 1)}${spreadDeg === null ? '; two bends always agree, a third one tells how well' : `; the bends scatter by ${figure(spreadDeg)} deg`}`,
    ...found.gains.map(
      ({ bend, gainMm, radiusMm }) =>
        `  bend ${bend}: gain ${figure(gainMm)} mm, centre-line radius ${figure(radiusMm, 1)} mm`,
    ),
    radius === null
      ? '  no legs measured: the radius is worked out of the springback'
      : `  centre-line radius of the finished bend ${figure(radius.mm, 1)} mm${radius.spreadMm === null ? '' : `, give or take ${figure(radius.spreadMm, 1)}`}`,
    ...(found.saved === null ? [] : [`Written to ${found.saved}: tube-bent goes by it.`]),
  ].join('\n');
};

/** How test bends are made and measured, with a file to fill in. */
export const CALIBRATE_TUBE_HOW_TO = `Bend two offcuts of the tube with the former that you use, one to some 20 and one
to some 120 degrees on the bender's scale; more of them tell how well they agree.
Let each go, and measure between its legs with the angle finder: 180 less that is
what stayed. For the radius cut an offcut to a known length before it is bent, and
measure from each end to the corner, where the middle lines of the legs meet.
Keep clear of the tube as it swings. Write into a file:

bender: bench bender
tube: 30
radius: 90
bends:
  - { pulled: 20, stayed: 18.2 }
  - { pulled: 120, stayed: 115.4, cut: 800, legA: 456, legB: 452 }

blankwright calibrate tube FILE.yaml --save shop.yaml`;
