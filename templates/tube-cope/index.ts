import {
  copedPart,
  copedTube,
  copeOn,
  type CopedAsked,
  type CopedTube,
  defineTubes,
  depthsOf,
  type Report,
  type ReportTable,
  spanOf,
} from '../../src/template.ts';
import { refusal, remarks } from './findings.ts';
import { inputs } from './inputs.ts';
import { copeSchematics } from './schematic.ts';
import { firstSeat, otherSeat, type Values } from './seats.ts';

/** A tube whose end is cut to sit on another tube, a plate or a bend. */
export default defineTubes({
  family: 'tube-cope',
  summary:
    'Tube coped onto a header, a plate or a bend, at one end or both, with wrap-round patterns.',
  sketch: String.raw`
                    / branch /           seen along the header
                   / diameter                   branch
                  /        / angle               | |
   ______________/________/___________          _| |_   offset: axis of the
     header      node                          (     )  branch beside that
   ___________________________________          \___/   of the header
   0 degrees round the branch lies on the acute side, 90 where offset points.
`,
  inputs,
  schematics: copeSchematics,
  cautions: ['sharp-edges', 'hot-work', 'tube-licensed'],
  examples: [
    {
      title: 'Cross tube of the strut brace onto its main tube',
      inputs: { name: 'brace-cross', diameter: 30, wall: 2, header: 38, angle: 90 },
    },
    {
      title: 'Diagonal of the crate rack between two rails, coped at both ends',
      inputs: {
        name: 'rack-diagonal',
        diameter: 25,
        wall: 2,
        header: 30,
        angle: 50,
        length: 420,
        other: 'header',
        otherAngle: 50,
        clocking: 180,
        hand: 'both',
      },
    },
    {
      title: 'Odd on purpose: a stub beside the middle of the tow post, with the hole for its bore',
      inputs: {
        name: 'tow-stub',
        diameter: '1in',
        wall: 3,
        header: 48.3,
        angle: 35,
        offset: -8,
        length: 150,
        knife: 'yes',
        headerHole: 'yes',
      },
    },
  ],
  build(v) {
    const made = copedTube(askedOf(v));
    if (!made.ok) return { findings: [refusal(v, made)] };
    const tube = copedPart(v.material, made.coped);
    return { tubes: [{ tube }], findings: remarks(v, tube), report: reportOf(tube) };
  },
});

/** Tube that stays between the cuts where no length was given, mm. */
const USUAL_LEFT_MM = 100;

const askedOf = (v: Values): CopedAsked => {
  const tube = { diameterMm: v.diameter, wallMm: v.wall };
  const [seat, other] = [firstSeat(v), otherSeat(v)];
  const most = [seat, ...(other === undefined ? [] : [other])].reduce((sum, one) => {
    const made = copeOn(tube, one);
    return sum + (made.ok ? spanOf(made.cope.fitMm).mostMm : 0);
  }, 0);
  return {
    tube,
    seat,
    lengthMm: v.length ?? most + USUAL_LEFT_MM,
    // Given clockwise as it is seen along the tube, which is right-handed about it.
    ...(other !== undefined && { other: { seat: other, clockDeg: v.clocking } }),
    hasKnife: v.knife,
    hasHeaderHole: v.headerHole,
    paperMm: v.paper,
  };
};

const reportOf = (tube: CopedTube): Report => ({
  figures: [
    { name: 'length cut off the bar', value: tube.cutLengthMm, unit: 'mm' },
    {
      name: 'shortest generator left',
      value: tube.left.leastMm,
      unit: 'mm',
      about: 'along the outside, from cut to cut',
    },
    { name: 'longest generator left', value: tube.left.mostMm, unit: 'mm' },
    { name: 'mass', value: tube.massKg, unit: 'kg' },
  ],
  tables: tube.ends.map((_, i) => depthTable(tube, i)),
});

const depthTable = ({ ends, diameterMm }: CopedTube, i: number): ReportTable => ({
  title: `Depths at twelve places${ends.length > 1 ? `, end ${i + 1}` : ''}, from a ring at the longest point`,
  columns: [
    { name: 'round', unit: 'deg' },
    { name: 'round the outside', unit: 'mm' },
    { name: 'depth', unit: 'mm' },
    { name: 'from the node', unit: 'mm' },
  ],
  rows: depthsOf((ends[i] as (typeof ends)[number]).cope).map(({ roundDeg, alongMm, depthMm }) => [
    roundDeg,
    (Math.PI * diameterMm * roundDeg) / 360,
    depthMm,
    alongMm,
  ]),
});
