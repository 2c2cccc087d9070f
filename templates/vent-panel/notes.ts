import {
  advise,
  beadSection,
  cautionText,
  circle,
  figure,
  type Finding,
  isOver,
  isUnder,
  leastRampMm,
  loopExtents,
  note,
  orMore,
  rampStretch,
  wholeUp,
} from '../../src/template.ts';
import type { Cutout } from '../../src/template.ts';
import type { Bead } from './beads.ts';
import { isUpright, type Louvre } from './louvres.ts';
import { louvreShape } from './report.ts';
import {
  type Box,
  boxGapMm,
  clearMm,
  foldOf,
  mostDrawnMm,
  type OutsideVent,
  rampMm,
  SIDES,
  trimAtMm,
  trimMm,
} from './sizes.ts';

interface OnFace {
  readonly louvres: readonly Louvre[];
  readonly beads: readonly Bead[];
  readonly holes: readonly Cutout[];
}

/** What the user should know about how the panel is formed, in which order, and what may tear. */
export const ventNotes = (v: OutsideVent, on: OnFace): Finding[] => [
  ...holesInForms(v, on),
  ...(v.louvres > 0 ? [...rampTears(v), opensNote(v)] : []),
  ...(v.beads > 0 ? [...beadTears(v), ...trimNotes(v)] : []),
  ...(v.louvres > 0 ? [note('caution-lanced-edges', cautionText('lanced-edges'))] : []),
  ...(v.louvres > 0 || v.beads > 0
    ? [orderNote(v), note('caution-press-work', cautionText('press-work'))]
    : []),
];

/** A hole in metal that is formed is drawn out of round, or torn open. */
const holesInForms = (v: OutsideVent, { louvres, beads, holes }: OnFace): Finding[] =>
  holes.flatMap((hole): Finding[] => {
    const loop = hole.kind === 'round' ? circle(hole.centre, hole.diameterMm / 2) : hole.loop;
    const box: Box | undefined = loopExtents(loop);
    const near = [...louvres, ...beads].find(
      (formed) => box !== undefined && isUnder(boxGapMm(formed.box, box), clearMm(v)),
    );
    return near === undefined
      ? []
      : [
          advise(
            'hole-in-formed',
            ['holes'],
            `${hole.from} lies in ${near.called} or less than ${figure(clearMm(v))} from it`,
            [],
            'move it, or drill it when all is formed',
          ),
        ];
  });

/** The lanced edge of a steep ramp is stretched more than the sheet takes. */
const rampTears = (v: OutsideVent): Finding[] => {
  const { elongationPct } = v.material;
  const ramp = rampMm(v);
  const stretch = 100 * rampStretch(louvreShape(v));
  return isOver(stretch, elongationPct.value)
    ? [
        advise(
          'louvre-ramp-tears',
          ['louvreRamp', 'louvreHeight'],
          `louvreRamp ${figure(ramp)} under louvreHeight ${figure(v.louvreHeight)} stretches the lanced edge by ${figure(stretch, 0)} %, more than the elongation of ${v.material.name}, ${elongationPct.value} %`,
          [orMore('louvreRamp', leastRampMm(v.louvreHeight, elongationPct.value / 100))],
          'give less louvreHeight',
          'form one in scrap first',
        ),
      ]
    : [];
};

const beadTears = (v: OutsideVent): Finding[] => {
  const { elongationPct } = v.material;
  const stretch = 100 * beadSection(v.beadWidth, v.beadDepth).heldStretch;
  return isOver(stretch, elongationPct.value)
    ? [
        advise(
          'bead-tears',
          ['beadDepth', 'beadWidth'],
          `beadDepth ${figure(v.beadDepth)} in beadWidth ${figure(v.beadWidth)} stretches the metal by ${figure(stretch, 0)} % where the edges are held, more than the elongation of ${v.material.name}, ${elongationPct.value} %`,
          [],
          'give less beadDepth or more beadWidth',
          'let the edges draw in, in several passes',
        ),
      ]
    : [];
};

const OPENS = {
  up: 'upwards',
  down: 'downwards',
  left: 'to the left',
  right: 'to the right',
} as const;

const opensNote = (v: OutsideVent): Finding => {
  const isTold = v.hand !== 'left' && isUpright(v);
  return note(
    'louvre-opens',
    `The louvres open ${OPENS[v.louvreOpens]} as the ${isTold ? 'left part' : 'panel'} is drawn${isTold ? ', on the right part the other way' : ''}, and stand proud ${v.louvreSide === 'up' ? 'towards whoever looks at the drawing' : 'on the face away from whoever looks at the drawing'}. Their free area is what the mouths leave open; how much air goes through hangs on fan and speed.`,
  );
};

/** What the beads do to the edges along them, and whether there is enough to trim. */
const trimNotes = (v: OutsideVent): Finding[] => {
  const most = mostDrawnMm(v);
  const sides = SIDES.filter((side) => trimAtMm(v, side) > 0);
  const told =
    sides.length === 0
      ? []
      : [
          note(
            'vent-trim',
            `The ${sides.map((side) => (foldOf(v, side) === undefined ? `${side} edge` : `flange at the ${side}`)).join(' and the ')} ${sides.length > 1 ? 'are' : 'is'} cut trim ${figure(trimMm(v))} too large each, on the blank and on every size to there. The beads draw these edges in by anything from 0, where they are held, to ${figure(most)} in all: after beading, measure edges and fold lines anew from the middle of the panel and trim them, then fold. A stop that is set from a trimmed edge is less by what came off.`,
          ),
        ];
  return isUnder(trimMm(v), most / 2)
    ? [
        ...told,
        advise(
          'vent-trim-short',
          ['trim'],
          `trim ${figure(trimMm(v))} may not be enough: the beads can draw the edges along them in by ${figure(most)} in all, half of it at either`,
          [orMore('trim', wholeUp(most / 2))],
          'hold the edges while you roll',
        ),
      ]
    : told;
};

/** The order of work, and what lies on the machine while the edges are folded. */
const orderNote = (v: OutsideVent): Finding => {
  const isFolded = SIDES.some((side) => foldOf(v, side) !== undefined);
  const isLast = v.louvres > 0 && isFolded && v.louvreOrder === 'after folding';
  const louvres = v.louvres > 0 ? ['form the louvres, beginning in the middle'] : [];
  const beads = v.beads > 0 ? ['roll the beads in several passes'] : [];
  const trim = trimMm(v) > 0 ? ['trim'] : [];
  const fold = isFolded ? ['fold the edges'] : [];
  const steps = isLast
    ? ['cut', ...beads, ...trim, ...fold, ...louvres]
    : ['cut', ...louvres, ...beads, ...trim, ...fold];
  const proud = Math.max(
    v.louvres > 0 && !isLast ? v.louvreHeight : 0,
    v.beads > 0 ? v.beadDepth : 0,
  );
  const packing =
    isFolded && proud > 0
      ? ` Nothing that stands proud may come under the jaw, and fingers stay apart where a bead ends; where it looks down on the bed, lay the sheet on packing of ${figure(proud)} or more beside it, so that it lies level.`
      : '';
  const reach = isLast ? ' The former has to reach between the flanges: try it first.' : '';
  return note(
    'vent-order',
    `Order of work: ${steps.join(', ')} (common practice).${packing}${reach}`,
  );
};
