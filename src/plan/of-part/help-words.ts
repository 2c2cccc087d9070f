import { HEM_DEG } from '../../bending/hem.ts';
import type { FoldStep, Tight } from '../../contract/fold-plan.ts';
import type { FlatBend } from '../../model/flat.ts';
import { figure } from '../../text/figures.ts';
import { reachesIn, takenBy } from '../machines/contacts.ts';
import { PACKER_DEPTH_MM, PACKER_MM, SPRING_MM } from '../machines/helps.ts';
import { type PlacedPart, placePart } from '../machines/placed-part.ts';
import { springing } from '../machines/springing.ts';
import { MOVING, type Side, STILL } from '../machines/stroke-rules.ts';
import type { Move } from '../search/cheapest.ts';
import { pairMeets } from '../search/conflicts.ts';
import type { Lattice } from '../search/lattice.ts';
import type { Stroke } from '../search/stroke.ts';

/** A stroke of a plan in the state that it is made from. */
export interface MadeStroke {
  readonly lattice: Lattice;
  readonly move: Move;
  /** The folds made before, as bits. */
  readonly made: number;
  readonly bend: FlatBend;
  /** The angle at which the machine would stop, degrees. */
  readonly stopAtDeg: number;
}

/** What a step says of the hands that help at it. */
export type HelpOfStep = Pick<
  FoldStep,
  'way' | 'byHandDeg' | 'packerMm' | 'tight' | 'stopAtDeg'
> & { readonly notes: readonly string[] };

/** How a stroke is made, how much of it by hand, and what is to be done. */
export function helpOf(at: MadeStroke): HelpOfStep {
  const { lattice, move, bend, stopAtDeg } = at;
  const stroke = lattice.strokes[move.stroke] as Stroke;
  const { help } = stroke.rules;
  const left = bend.angleDeg >= HEM_DEG ? bend.angleDeg - stopAtDeg : 0;
  if (help === undefined) return { way: 'machine', byHandDeg: left, stopAtDeg, notes: [] };
  const tight = tightAt(at);
  const common = { stopAtDeg, byHandDeg: left, ...(tight.length > 0 && { tight }) };
  const tightNotes = [...tight.map(tightNote), ...landNote(at)];
  switch (help) {
    case 'tight':
      return { ...common, way: 'machine', notes: tightNotes };
    case 'off the end':
    case 'short die':
      return { ...common, way: help, notes: [besideNote(at), ...tightNotes] };
    case 'on packers': {
      const packerMm = stroke.packerMm?.(at.made, move.placement) ?? PACKER_MM;
      return { ...common, way: help, packerMm, notes: [packerNote(packerMm), ...tightNotes] };
    }
    case 'rest by hand': {
      const reachedDeg = stroke.reachesDeg?.(at.made, move.placement) ?? 0;
      const byHandDeg = bend.angleDeg - reachedDeg;
      return {
        ...common,
        way: help,
        stopAtDeg: reachedDeg,
        byHandDeg,
        notes: [
          `the machine gets to ${figure(reachedDeg)} deg; the last ${figure(byHandDeg, 1)} by hand, over a block or with flat pliers, to the square`,
          ...tightNotes,
        ],
      };
    }
    case 'over a block':
      return {
        ...common,
        way: help,
        stopAtDeg: bend.angleDeg,
        byHandDeg: bend.angleDeg,
        notes: [
          'by hand, in the vice or under clamps: a straight edge on either face along the mark, then tapped over a little at a time along its whole length, to the square',
          ...tightNotes,
        ],
      };
  }
}

const tightNote = ({ panel, touches, springsMm }: Tight): string =>
  `tight: ${panel} springs ${figure(springsMm, 1)} mm at ${touches}`;

/** Springs are told to this, mm. */
const SPRING_STEP_MM = 0.1;

/**
 * The panels that have to spring aside, what they pass or meet there, and by how much. What is beyond
 * the usual contact gap is counted.
 */
function tightAt({ lattice: { net, strokes }, move, made }: MadeStroke): Tight[] {
  const { folds, rules } = strokes[move.stroke] as Stroke;
  const turnDeg = rules.swingDeg - rules.startDeg;
  const placed = (springMm: number): PlacedPart =>
    placePart(springMm === 0 ? net : springing(net, springMm), folds, move.placement, rules);
  const meet = (part: PlacedPart, still: number, moving: number): boolean =>
    pairMeets(part, still, moving, made, turnDeg);
  const plain = placed(0);
  const on = (side: Side): number[] =>
    plain.sides.flatMap((s, panel) => (s === side ? [panel] : []));
  const nameOf = (panel: number): string => net.panels[panel]?.id ?? '';
  const met = on(MOVING).flatMap((moving) =>
    on(STILL).flatMap((still) => (meet(plain, still, moving) ? [{ moving, still }] : [])),
  );
  if (met.length === 0) return [];
  const steps = Array.from({ length: Math.round(SPRING_MM / SPRING_STEP_MM) }, (_, i) => {
    const springMm = (i + 1) * SPRING_STEP_MM;
    return { springMm, part: placed(springMm) };
  });
  return met.map(({ moving, still }) => ({
    panel: nameOf(moving),
    touches: nameOf(still),
    springsMm: steps.find(({ part }) => !meet(part, still, moving))?.springMm ?? SPRING_MM,
  }));
}

/** A note where less of the sheet lies under the clamp than it asks for, or the tool is brushed. */
function landNote({ lattice, move: { stroke, placement }, made }: MadeStroke): string[] {
  const { folds, placedParts, plain: plainRules } = lattice.strokes[stroke] as Stroke;
  if (plainRules === undefined) return [];
  const plain = plainRules();
  const placedPart = placedParts[placement];
  const strip = Math.min(...folds.map((f) => placedPart.strip(f, STILL, made)));
  const short = strip < plain.stripMm[STILL] ? [strip] : [];
  const brushed = lattice.net.panels.flatMap(({ id }, panel) =>
    plain.checks.some(
      (check) =>
        !check.inSections &&
        check.side === placedPart.sides[panel] &&
        placedPart.panel(panel, made).solids.some((s) => reachesIn(s, check)),
    )
      ? [id]
      : [],
  );
  return [
    ...short.map(
      (mm) =>
        `only ${figure(mm, 1)} mm lie behind the fold where ${figure(plain.stripMm[STILL], 1)} are usual: set the clamp hard, and see that it does not slip`,
    ),
    ...(lattice.strokes[stroke]?.rules.help === 'tight'
      ? brushed.map((id) => `tight: ${id} brushes the tools by up to ${figure(SPRING_MM, 1)} mm`)
      : []),
  ];
}

/** The panels that hang beside the machine's end, or beside its die. */
export function besideOf({
  lattice,
  move: { stroke, placement },
  made,
}: Pick<MadeStroke, 'lattice' | 'move' | 'made'>): string[] {
  const { rules, placedParts } = lattice.strokes[stroke] as Stroke;
  const placedPart = placedParts[placement];
  const isDie = rules.help === 'short die';
  return lattice.net.panels.flatMap(({ id }, panel) =>
    rules.checks.some(
      (check) =>
        (isDie ? check.inSections : check.atEnd === true) &&
        check.side === placedPart.sides[panel] &&
        placedPart.panel(panel, made).solids.some((s) => takenBy(s, check) !== undefined),
    )
      ? [id]
      : [],
  );
}

function besideNote(at: MadeStroke): string {
  const beside = besideOf(at);
  return (at.lattice.strokes[at.move.stroke] as Stroke).rules.help === 'short die'
    ? `with punch and die no longer than the fold: ${beside.join(', ')} stays beside them`
    : `off the end: shift it along until ${beside.join(', ')} hangs outside the end of bed and leaf, with the whole fold on them`;
}

const packerNote = (mm: number): string =>
  `on packers of ${figure(mm, 1)} mm, ${figure(PACKER_DEPTH_MM)} mm wide along the front of the bed, with leaf and nose set for as much more; lift it off them`;
