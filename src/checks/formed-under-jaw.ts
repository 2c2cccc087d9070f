import { lacks } from '../model/measured.ts';
import { atLeast, figure } from '../text/figures.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import { distance, dot, leftOf, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { type Finding, warn } from '../model/finding.ts';
import type { FlatBend, FlatPattern } from '../model/flat.ts';
import type { FlatFormed } from '../model/formed.ts';
import type { Machine } from '../model/machine.ts';
import type { Check } from './check.ts';

/** A louvre or a bead that stands where the jaw of the machine lies while a fold beside it is made. */
export const formedUnderJaw: Check = {
  rule: 'formed-under-jaw',
  title: 'A louvre or a bead lies under the jaw that holds the sheet for a fold.',
  severities: ['warn'],
  reason:
    'A jaw that closes on what stands proud of the sheet flattens it, and holds the sheet askew.',
  source: [
    'Plane geometry; depth of fingers, punch and die as they stand in the shop file.',
    'What is narrower than the gap that may be left between fingers stands in that gap.',
  ].join(' '),
  measured: 'from where the bend begins to the louvre or bead, against how deep the jaw is there',
  mend: 'Move it away from the fold, or form it after folding.',
  run: ({ flat, shop }) =>
    shop.machines.length === 0
      ? []
      : (flat.formed ?? [])
          .filter((formed) => formed.isAfterFolding !== true)
          .flatMap((formed) => nearest(formed, flat, shop.machines)),
};

/** The bend that leaves too little to the jaw of any machine, told once for each that is formed. */
function nearest(
  formed: FlatFormed,
  flat: FlatPattern,
  machines: readonly Machine[],
): readonly Finding[] {
  const near = flat.bends.flatMap((bend) => {
    const strip = stripBeside(formed, bend);
    if (strip === undefined) return [];
    const asked = machines.map((machine) => jawDepthMm(machine, formed, bend, strip.alongMm));
    const leastMm = Math.min(...asked);
    return strip.clearMm >= leastMm - NOISE_MM ? [] : [{ bend, leastMm, clearMm: strip.clearMm }];
  });
  const [worst] = near.toSorted((a, b) => a.clearMm - a.leastMm - (b.clearMm - b.leastMm));
  if (worst === undefined) return [];
  const { bend, leastMm, clearMm } = worst;
  const message =
    `${formed.called} stands ${figure(formed.proudMm)} mm proud ${figure(clearMm)} mm from where bend ${bend.id} begins, ` +
    `and the jaw is ${figure(leastMm)} mm deep there: it would be crushed. Move it ${atLeast(leastMm - clearMm)} mm further from the fold, or form it after folding.`;
  return [
    {
      ...warn(formedUnderJaw, message),
      inputs: formed.inputs,
      panel: formed.panel,
      ...lacks(clearMm, leastMm),
    },
  ];
}

interface Strip {
  /** Flat sheet between the bend and what is formed. */
  readonly clearMm: number;
  /** How much of the fold it stands beside. */
  readonly alongMm: number;
}

/** The strip between a bend and what is formed on a panel of it; none where it stands past its ends. */
function stripBeside({ panel, zone }: FlatFormed, bend: FlatBend): Strip | undefined {
  if (panel !== bend.parent && panel !== bend.child) return undefined;
  const [own, other] =
    panel === bend.parent
      ? [bend.parentTangent, bend.childTangent]
      : [bend.childTangent, bend.parentTangent];
  const [from, to] = own;
  const towards = unit(sub(to, from));
  const square = leftOf(towards);
  const away: Vec2 = dot(sub(other[0], from), square) > 0 ? [-square[0], -square[1]] : square;
  const places = zone.map((p) => dot(sub(p, from), towards));
  const [first, last] = [
    Math.max(0, Math.min(...places)),
    Math.min(distance(from, to), Math.max(...places)),
  ];
  if (last <= first) return undefined;
  return {
    clearMm: Math.min(...zone.map((p) => dot(sub(p, from), away))),
    alongMm: last - first,
  };
}

/**
 * How far from the bend the sheet has to be flat. A folder's fingers or beam press on it from the
 * nose to the heel, whichever face it stands on, but for the gap that may be left between fingers. A
 * brake has its ram over the face that the sheet is bent towards, and its die under the other.
 */
const jawDepthMm = (
  machine: Machine,
  { direction }: FlatFormed,
  bend: FlatBend,
  alongMm: number,
): number => {
  if (machine.kind === 'folder')
    return machine.clamp.kind === 'fingers' && alongMm <= 2 * machine.maxUncoveredMm.value
      ? 0
      : machine.noseDepthMm.value;
  return direction === bend.direction
    ? machine.ramHalfMm.value
    : machine.vMm.value / 2 + machine.shoulderMm.value;
};
