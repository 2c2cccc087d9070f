import type { Example } from '../../src/template.ts';

export const EXAMPLES: readonly Example[] = [
  {
    title: 'Under the bed of the cart: taped at both ends of a space that narrows, one blank round',
    inputs: {
      name: 'bed-tank',
      sections: '0: 0,0; 420,0; 420,240; 0,260 | 620: 20,15; 380,15; 380,215; 20,233',
      clearance: 6,
      material: '5754-h111',
      thickness: 2,
      radius: 3,
      longestBay: 330,
      filler: '90,330,60',
      breather: '560,80,10',
      pickup: '60,60,14',
      drain: '150,100,22',
    },
  },
  {
    title:
      'Three sections round the drive shaft of the cart: a corner cut off, a floor that rises, a warped wall creased by eye',
    inputs: {
      name: 'shaft-tank',
      sections:
        '0: 0,0; 380,0; 440,70; 440,250; 0,250 | 400: 0,0; 380,0; 440,70; 440,250; 0,250 | 700: 0,30; 360,45; 420,110; 420,250; 0,250',
      measure: 'inside',
      blanks: 'halves',
      material: 'dc01',
      thickness: 1.5,
      baffleAt: '200; 520',
      fluid: 'water',
      fillLimit: 98,
      filler: '80,200,80',
      drain: '60,60,22',
      dipStep: 5,
    },
  },
  {
    title: 'Odd on purpose: an L round a cross member, in inches, all walls apart, both hands',
    inputs: {
      name: 'member-nook',
      sections:
        '0: 0,0; 18in,0; 18in,4in; 9in,4in; 9in,10in; 0,10in | 15in: 0,1in; 16in,1in; 16in,5in; 8in,5in; 8in,10in; 0,10in',
      blanks: 'plates',
      setback: 0,
      crease: 'out',
      material: '1.4301',
      thickness: 1.5,
      filler: '4in,4in,57',
      breather: '11in,2in,10',
      pickup: '2in,2in,12',
      hand: 'both',
      longestBay: 300,
    },
  },
];
