import { defineTemplate } from '../../src/template.ts';
import { elbow } from './build.ts';
import { inputs } from './inputs.ts';

/** An elbow of a round duct, of mitred segments that are rolled. */
export default defineTemplate({
  family: 'elbow',
  summary: 'Elbow of a round duct, of mitred segments with their seams staggered.',
  sketch: String.raw`
        ___________                 blanks, back to back
       |           \               .-------------------.
       |  throat  . \  back        |  end              |
       |        .    \             |    .--'''''--.    |
        '.___ .       |            |.-''           ''-.|  one cut for
        angle  '.____.|  ^         |   segment         |  both sides
         centreRadius |  | stub    |    .--'''''--.    |
        <----->|______|  v         |.-''    end    ''-.|
               diameter            '-------------------'
`,
  inputs,
  when: { cornerRadius: [], cornerChamfer: [], measure: [], radius: [], rule: [] },
  defaults: { rule: 'k:0.5' },
  cautions: ['sharp-edges', 'weld-heat'],
  examples: [
    {
      title: 'From the air filter to the intake of the cart engine, five segments',
      inputs: {
        name: 'intake-elbow',
        diameter: 100,
        diameterOf: 'middle',
        centreRadius: 150,
        material: 'dc01',
        thickness: 1,
      },
    },
    {
      title: 'Slight bend of two pieces in the exhaust of the dust fan, with stubs, lapped',
      inputs: {
        name: 'dust-bend',
        diameter: 160,
        angle: 30,
        centreRadius: 240,
        segments: 2,
        stub: 40,
        seam: 'lap',
        lap: 12,
        material: 'dc01',
        thickness: 1.5,
      },
    },
    {
      title:
        'Odd on purpose: tight return of seven segments in inches, seams at the throat, both hands',
      inputs: {
        name: 'return-bend',
        diameter: '3in',
        diameterOf: 'inside',
        angle: 165,
        centreRadius: 70,
        segments: 7,
        stub: 15,
        seamPlace: 'throat',
        faceOut: 'upper',
        material: '1.4301',
        thickness: 1,
        hand: 'both',
      },
    },
  ],
  build: elbow,
});
