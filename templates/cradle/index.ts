import { defineTemplate } from '../../src/template.ts';
import { cradle } from './build.ts';
import { inputs } from './inputs.ts';

/** Two straps and a cross rail that a tank hangs in under a chassis. */
export default defineTemplate({
  family: 'cradle',
  summary:
    'Cradle for a tank under a chassis: two straps and a cross rail, by the measures of the tank.',
  sketch: String.raw`
  from the left end                 from the side away from the rail
  ===================== chassis     ====================================
  __o_           _____o__           chassisAt o   chassisPitch       o
     | |drop    | |     |           |<------->|_____________________|
     | |________| |     | railWeb   ||leftStrap| |           | |
     | |        | |                 ||-------->| | rightStrap| |
     | | width  | | depth           |          | |<-->|      | | depth
     | |________| |                 |__________|_|___________|_|
     |____________|                  slopeAlong: falls to the right
    |<-boltCentres->|               |<---------- length ------->|
  The straps lie on rubber, and pullUp is left between their feet and
  what they are bolted to until the bolts pull them up. slopeAcross:
  the floor falls towards the rail; slopeAlong: towards the right end.
`,
  inputs,
  cautions: ['fuel-tank', 'sharp-edges', 'load-bearing', 'carried-load'],
  examples: [
    {
      title: 'Cradle for the diesel tank of the cart, level floor, on an angle',
      inputs: {
        name: 'diesel-cradle',
        length: 600,
        width: 350,
        depth: 250,
        leftStrap: 120,
        rightStrap: 120,
        boltCentres: 430,
        chassisPitch: 680,
        emptyMass: 17,
        material: 's235',
        thickness: 2,
        radius: 2.5,
        cornerRadius: 6,
      },
    },
    {
      title: 'The tank whose floor falls to its outlet: straps that differ, on a channel',
      inputs: {
        name: 'sloping-cradle',
        length: 700,
        width: 300,
        depth: 200,
        slopeAlong: 5,
        slopeAcross: 3,
        drop: 15,
        leftStrap: 130,
        rightStrap: 140,
        boltCentres: 390,
        rail: 'channel',
        railWeb: 55,
        chassisAt: 20,
        chassisPitch: 640,
        hand: 'both',
        material: '5754-h111',
        thickness: 2,
        radius: 3,
      },
    },
    {
      title:
        'Odd on purpose: a shallow water tank, thick rubber, bolts of the chassis between the straps',
      inputs: {
        name: 'water-cradle',
        length: '30in',
        width: 420,
        depth: 160,
        slopeAcross: -4,
        drop: 0,
        fluid: 'water',
        leftStrap: 100,
        rightStrap: '4in',
        strapWidth: 50,
        rubber: 8,
        clearance: 0,
        boltCentres: 520,
        boltHole: 9,
        beyond: 25,
        pullUp: 0,
        rail: 'channel',
        railWeb: 40,
        chassisAt: 170,
        chassisPitch: 420,
        chassisHole: 11,
        measure: 'inside',
        material: '5754-h111',
        thickness: 2,
        radius: 3,
        hand: 'right',
      },
    },
  ],
  build: cradle,
});
