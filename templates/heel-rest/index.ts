import { defineTemplate } from '../../src/template.ts';
import { heelRestPart } from './build.ts';
import { inputs } from './inputs.ts';

/** A wedge that gives the heel a level, or chosen, surface on a sloping floor. */
export default defineTemplate({
  family: 'heel-rest',
  summary:
    'Heel rest: a tread at a chosen angle on a sloping floor, with a stop, cheeks and floor flanges.',
  sketch: String.raw`
  seen from the left, front to the right, the floor drawn level

                                       _,+  rise at the front
             treadDepth         _,--''   |
                         _,--''          |
                  _,--''      cheek      | riser, riserAngle
           _,--''                        |   from the floor
   -------'   treadAngle - floorAngle    '---------
   flangeRear                            flangeFront

  Where treadAngle is less than floorAngle the riser is at the rear.

  stop, single       double, with       double, with    lift: a riser
  on a bare edge     the flange         the riser       at both ends
      |                  ||                  ||
      | lipHeight        ||                  ||          +-------+
  ____|              ____||____          ____||          | tread |
  tread              tread  flange       tread |___    __|       |__
`,
  inputs,
  cautions: ['sharp-edges', 'pedal-area', 'weld-heat'],
  examples: [
    {
      title:
        "Level heel rest on the cart's footboard, which falls forward by 18 degrees; stop at the front, folded double with the riser",
      inputs: {
        name: 'driver-heel-rest',
        floorAngle: -18,
        width: 160,
        treadDepth: 110,
        lipHeight: 25,
        material: '5754-h111',
        thickness: 2,
        cornerRadius: 5,
        grip: 'holes',
        gripSize: 8,
        gripPitch: 18,
        holesFront: '14,20,M6; 14,140,M6',
        holesRear: '14,20,M6; 14,140,M6',
        weldAt: 'A, B',
      },
    },
    {
      title:
        'Rising tread on the level floor of the passenger, a single hemmed stop at the bare low end, screwed down by the cheeks',
      inputs: {
        name: 'passenger-heel-rest',
        floorAngle: 0,
        treadAngle: 15,
        width: 220,
        treadDepth: 140,
        lipHeight: 30,
        hem: 12,
        material: 'dc01',
        thickness: 1.5,
        flangeRear: 0,
        cheekFlange: 20,
        cornerRadius: 4,
        grip: 'slots',
        gripSize: 6,
        gripLength: 30,
        gripPitch: 18,
        holesFront: '13,25,6.6; 13,195,6.6',
      },
    },
    {
      title:
        'Odd on purpose: lifted off a floor that rises as steeply as the tread, risers leaning in, stop on the front, cheek on the left only',
      inputs: {
        name: 'step-heel-rest',
        floorAngle: 10,
        treadAngle: 10,
        lift: '1.5in',
        width: 120,
        treadDepth: 90,
        riserAngle: 80,
        lipHeight: 20,
        lipPlace: 'front',
        cheeks: 'left',
        material: 's235',
        thickness: 2,
        measure: 'inside',
        relief: 'square',
        holesTread: '45,60,12x30',
        hand: 'both',
      },
    },
  ],
  build: heelRestPart,
});
