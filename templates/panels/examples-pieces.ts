import type { Example } from '../../src/template.ts';

/** Parts of several pieces, and tabs that locate their panels. */
export const piecesExamples: readonly Example[] = [
  {
    title: 'A fuse box for the cart with a lid that drops over it',
    inputs: {
      name: 'fuse-box',
      thickness: 1.5,
      pieces: [
        {
          name: 'box',
          base: { size: '160 x 110', holes: '20,20,M5; 140,20,M5; 140,90,M5; 20,90,M5' },
          flanges: [
            { name: 'front', on: 'bottom', height: 45, holes: 'from foot 25, middle, 20.5' },
            { name: 'rear', on: 'top', height: 'front.height' },
            {
              name: 'side left',
              on: 'left',
              height: 'front.height',
              holes: 'from foot 30, middle, M4',
            },
            {
              name: 'side right',
              on: 'right',
              height: 'front.height',
              holes: 'from foot 30, middle, M4',
            },
          ],
        },
        {
          name: 'lid',
          fits: { over: 'box', gap: 1.5 },
          flanges: [
            { name: 'skirt front', on: 'bottom', height: 22 },
            { name: 'skirt rear', on: 'top', height: 22 },
            {
              name: 'skirt left',
              on: 'left',
              height: 22,
              holes: 'from foot box.front.height-28.5, middle, 4.5',
            },
            {
              name: 'skirt right',
              on: 'right',
              height: 22,
              holes: 'from foot box.front.height-28.5, middle, 4.5',
            },
          ],
        },
      ],
    },
  },
  {
    title: 'A bracket for the fencing pliers with cheeks that are located by tabs',
    inputs: {
      name: 'tool-bracket',
      thickness: 3,
      radius: 3,
      leastSlot: 3.7,
      cornerRadius: 4,
      pieces: [
        {
          name: 'back',
          base: { size: '140 x 90', holes: '30,75,M8; 110,75,M8' },
          flanges: [
            'shelf on bottom 70 90 up holes from end 32, middle, 26',
            'lip on shelf end 20 90 up',
          ],
        },
        {
          name: 'rib-left',
          fits: 'closes back left gap 0.5 inset 12',
          tabs: [
            'bottom into back base count 1 width 20',
            'shelf into back shelf count 1 width 20',
          ],
        },
        {
          name: 'rib-right',
          fits: 'closes back right gap 0.5 inset 12',
          tabs: [
            'bottom into back base count 1 width 20',
            'shelf into back shelf count 1 width 20',
          ],
        },
      ],
    },
  },
];
