import { defineTemplate } from '../../src/template.ts';
import { ventPanel } from './build.ts';
import { inputs } from './inputs.ts';

/** A panel of thin sheet with folded edges, rows of louvres, and stiffening beads. */
export default defineTemplate({
  family: 'vent-panel',
  summary: 'Panel with louvres, stiffening beads and folded edges; side of an engine bay, cover.',
  sketch: String.raw`
   ______________________________          through a louvre
  |   ________________________   |                   ____
  |  (________ bead __________)  |      form line .-'    | height
  |                              |   ___________.'       |_____ sheet
  |   o-----------------------o  |           lance ------'
  |    \_____________________/   | height   |<-- depth ->|
  |   o-----------------------o  |
  |    \_____________________/   | pitch    o: stop hole at either
  |______________________________|          end of a lance
               width
`,
  inputs,
  cautions: ['sharp-edges'],
  examples: [
    {
      title: 'Lid of the engine bay of the cart: louvres over each other, a bead on either side',
      inputs: {
        name: 'engine-lid',
        width: 360,
        height: 300,
        foldTop: 'up',
        foldBottom: 'up',
        flange: 15,
        louvres: 4,
        louvreLength: 160,
        louvrePitch: 26,
        beads: 2,
        beadRun: 'upright',
        beadPitch: 270,
        beadClear: 60,
        holes: '150,15,M6; 150,345,M6',
        cornerRadius: 8,
        material: 'dc01',
        thickness: 1,
      },
    },
    {
      title: 'Cover over the gearbox: three beads, all edges folded down',
      inputs: {
        name: 'gearbox-cover',
        width: 300,
        height: 240,
        foldBottom: 'down',
        foldRight: 'down',
        foldTop: 'down',
        foldLeft: 'down',
        flange: 20,
        beads: 3,
        beadPitch: 55,
        beadClear: 20,
        beadWidth: 16,
        beadDepth: 3,
        material: '5754-h111',
        thickness: 1.5,
      },
    },
    {
      title:
        'Odd on purpose: two rows that open to the left, formed last, one edge up and one down, beads off the middle, inside dimensions, both hands',
      inputs: {
        name: 'bulkhead-vent',
        width: '12in',
        height: 355,
        foldLeft: 'up',
        foldTop: 'down',
        flange: 12,
        louvres: 5,
        louvreRows: 2,
        louvreOpens: 'left',
        louvreSide: 'down',
        louvreLength: 90,
        louvreRowPitch: 108,
        louvrePitch: 27,
        louvresAcross: 90,
        louvresUp: 75,
        louvreOrder: 'after folding',
        beads: 2,
        beadRun: 'level',
        beadSide: 'down',
        beadsAt: 260,
        beadPitch: 30,
        trim: 3,
        cornerRadius: 8,
        measure: 'inside',
        hand: 'both',
        holes: '20,20,6.6; 20,285,6.6; 335,285,6.6',
        material: 's235',
        thickness: 1.5,
      },
    },
  ],
  build: ventPanel,
});
