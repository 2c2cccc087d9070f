import type { Example } from '../../src/template.ts';

/** Parts of the vineyard cart that have no family of their own. */
export const examples: readonly Example[] = [
  {
    title: 'A plate with one odd ear and a return on it, for the tail lamp of the cart',
    inputs: {
      name: 'lamp-ear',
      base: '120 x 80 holes 20,20,M6; 100,20,M6',
      flanges: [
        'ear on right 40 75 up from 10 to 50 taperLeft 20 holes from foot 25, from right 12, M8',
        'return on ear end 15 90 down',
        'lip on top 12 90 up from 20 to 100',
      ],
      material: 's235',
      thickness: 2,
      cornerRadius: 3,
    },
  },
  {
    title: 'Relay tray on three feet at three angles, to stand level on the sloping bulkhead',
    inputs: {
      name: 'relay-tray',
      base: {
        size: '160 x 90',
        holes: 'x 80, y 45, grid 3 x 2 pitch 50 M5',
      },
      flanges: [
        { name: 'rim', on: 'base top', height: 15 },
        { name: 'left foot', on: 'base left', height: 35, angle: 90, direction: 'down', width: 30 },
        {
          name: 'right foot',
          on: 'base right',
          height: 'left_foot.height + 8',
          angle: 75,
          direction: 'down',
          width: 30,
        },
        {
          name: 'front foot',
          on: 'base bottom',
          height: 28,
          angle: 60,
          direction: 'down',
          width: 'base.width/4',
        },
        {
          name: 'left pad',
          on: 'left foot end',
          height: 24,
          direction: 'up',
          holes: 'from end 8, middle, M5',
        },
        {
          name: 'right pad',
          on: 'right foot end',
          height: 'left_pad.height',
          angle: 60,
          direction: 'up',
          holes: 'from end 8, middle, M5',
        },
      ],
      material: '5754-h111',
      thickness: 2,
      cornerRadius: 3,
    },
  },
  {
    title: 'Cover for the pump, with a notch for the hose and lips that skip it',
    inputs: {
      name: 'pump-cover',
      base: {
        size: '220 x 140',
        cutouts: '90,120; 130,120 r8; 130,150; 90,150 r8',
        holes: 'x 12, y 12, M5; x 208, y 12, M5',
      },
      flanges: [
        { name: 'lip left', on: 'base top', height: 18, to: 84 },
        { name: 'lip right', on: 'base top', height: 'lip_left.height', from: 136 },
        { name: 'left', on: 'base left', height: 25 },
        { name: 'right', on: 'base right', height: 'left.height' },
      ],
      corners: [
        'lip left and left butt through left gap 0.5',
        'lip right and right butt through right gap 0.5',
      ],
      material: 'dc01',
      thickness: 1.5,
      hand: 'both',
    },
  },
  {
    title: 'Foot for the bench seat: a tapered flange between two gussets to weld',
    inputs: {
      name: 'seat-foot',
      base: {
        width: 90,
        depth: 70,
        holes: 'x 26, y 25, 9 for M8 to floor; x 64, y 25, 9 for M8 to floor',
      },
      flanges: [
        {
          name: 'upright',
          on: 'base top',
          height: 110,
          endWidth: 70,
          cornerRadius: 10,
          holes: 'from base 90, from base left 45, M10',
        },
        {
          name: 'gusset left',
          on: 'base left',
          outline: '0,0; 50,0; 50,10; 52.5+radius,15; 52.5+radius,30',
          to: 'base.depth - thickness - radius - 3',
        },
        {
          name: 'gusset right',
          on: 'base right',
          outline: '2.5+radius,0; 52.5+radius,0; 0,30; 0,15; 2.5+radius,10',
          to: 'gusset_left.to',
        },
      ],
      material: 's235',
      thickness: 3,
    },
  },
  {
    title: 'Dash panel with an aperture for the gauge, its edge returned on three sides',
    inputs: {
      name: 'dash-panel',
      base: {
        outline: '0,0; 320,0 edge right; 300,130 r20 edge top; 20,130 r20 edge left',
        cutouts: '100,40 r10; 220,40 r10; 220,100 r10; 100,100 r10',
        holes: 'x 40, y 40, 22; x 280, y 40, 22',
      },
      flanges: [
        'top lip on top 20 90 down',
        'left lip on left 20 90 down from 24',
        'right lip on right 20 90 down to 104',
      ],
      material: '5754-h111',
      thickness: 1.5,
    },
  },
  {
    title:
      'Wedge spacer of five panels, to stand the tank strap level on a floor that falls by 15 degrees',
    inputs: {
      name: 'wedge-spacer',
      base: '100 x 60',
      flanges: [
        { name: 'low side', on: 'base bottom', height: 20, angle: 75, direction: 'down' },
        { name: 'high side', on: 'base top', height: 35.5, angle: 105, direction: 'down' },
        {
          name: 'left side',
          on: 'base left',
          direction: 'down',
          outline: '0,0; 60,0; 50.8,34.3; -5.2,19.3',
        },
        {
          name: 'right side',
          on: 'base right',
          direction: 'down',
          outline: '0,0; 60,0; 65.2,19.3; 9.2,34.3',
        },
      ],
      material: 's235',
      thickness: 2,
    },
  },
  {
    title: 'Clip for the brake-light cable: a joggled tongue and a hem',
    inputs: {
      name: 'cable-clip',
      base: '40 x 25 holes x 20, y 10, M5',
      flanges: [
        { name: 'tongue', on: 'base top', height: 30, joggle: 16 },
        { name: 'safe edge', on: 'tongue end', height: 8, angle: 180 },
      ],
      material: 'dc01',
      thickness: 1,
    },
  },
  {
    title: 'Sector of a ring round the filler neck, short flanges on its straight sides',
    inputs: {
      name: 'filler-sector',
      base: { ring: { outer: 240, inner: 150, from: 20, to: 110 }, holes: '0,97,M6' },
      flanges: [
        { name: 'first', on: 'base start', height: 22, holes: 'from foot 12, middle, M6' },
        {
          name: 'last',
          on: 'base end',
          height: 'first.height',
          direction: 'down',
          holes: 'from foot 12, middle, M6',
        },
      ],
      material: 's235',
      thickness: 2,
    },
  },
  {
    title:
      'Odd on purpose: a leaning base, flanges on flanges, both ways, slits, inside dimensions, both hands',
    inputs: {
      name: 'odd-one',
      base: {
        name: 'floor',
        outline: '0,0 edge front; 5in,0 edge slope; 100,70 c10 edge back; 0,70 edge side',
        slits: '25,0 25,18',
        holes: 'x 60, y 35, 4.3 csk 6.8 up',
      },
      flanges: [
        {
          name: 'front lip',
          on: 'floor front',
          height: 16,
          angle: 45,
          direction: 'down',
          from: 40,
          to: 85,
        },
        { name: 'wall', on: 'floor side', height: 45, angle: 100, cornerChamfer: 6 },
        {
          name: 'shelf',
          on: 'wall end',
          height: 22,
          direction: 'down',
          width: 40,
          align: 'left',
          radius: 4,
        },
        { name: 'ear', on: 'wall left', height: 18, angle: 30, direction: 'up', from: 15, to: 35 },
        {
          name: 'sloping lip',
          on: 'floor slope',
          height: 14,
          angle: 110,
          radius: 3,
          rule: 'k:0.42',
          from: 14,
          to: 55,
        },
      ],
      measure: 'inside',
      material: 's275',
      thickness: 1.5,
      hand: 'both',
    },
  },
];
