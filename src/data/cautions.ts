import type { Finding } from '../model/finding.ts';
import { isCaution } from '../model/finding-line.ts';
import type { Material } from '../model/material.ts';

/**
 * The work at which a caution is to be heeded, in the order in which a part goes through the shop.
 */
export const CAUTION_STEPS = ['cutting', 'folding', 'welding', 'fitting'] as const;

export type CautionStep = (typeof CAUTION_STEPS)[number];

export interface Caution {
  readonly at: CautionStep;
  /** A few words for a paper that has no room for more. */
  readonly short: string;
  readonly text: string;
}

const caution = (at: CautionStep, short: string, text: string): Caution => ({ at, short, text });

/**
 * Short cautions usual in the trade. Safety-relevant subjects defer to local rules and licensed
 * practice; the texts give no procedure. All of them are common practice.
 */
export const CAUTIONS = {
  'sharp-edges': caution(
    'cutting',
    'sharp edges',
    'Cut edges are sharp: deburr them before folding, and wear gloves until then.',
  ),
  eyes: caution(
    'cutting',
    'eyes',
    'Cutting, drilling and grinding throw sparks and chips, and arcs blind: protect eyes, your own and those of others nearby.',
  ),
  'steel-fume': caution(
    'cutting',
    'fume of steel',
    'Plasma cutting or welding plain steel gives off harmful fume too, more of it with oil, paint or plating on the sheet: clean it first, and follow local rules for extraction.',
  ),
  'galvanised-fume': caution(
    'cutting',
    'zinc fume',
    'Zinc gives off harmful fume when galvanised sheet is welded or plasma cut: follow local rules for extraction and breathing protection, and coat the bare zones again.',
  ),
  'stainless-fume': caution(
    'cutting',
    'chromium fume',
    'Welding or plasma cutting stainless steel gives off fume with chromium and nickel in it: follow local rules for extraction and breathing protection.',
  ),
  'aluminium-fume': caution(
    'cutting',
    'ozone and dust',
    'Welding or plasma cutting aluminium gives off fume and ozone, and its dust burns: follow local rules for extraction, and keep the dust apart from that of steel.',
  ),
  'lanced-edges': caution(
    'folding',
    'lanced edges',
    'Lanced edges are as sharp as knives and stand where hands go: break them as soon as they are formed, and never reach through a louvre.',
  ),
  'press-work': caution(
    'folding',
    'press work',
    'A press, bead rolls or a hammer form take fingers, and a former that is not held flies out: hold the sheet from outside, follow the guards and rules of the machine, and protect eyes and ears.',
  ),
  pinch: caution(
    'folding',
    'pinching',
    'Leaf, clamp and press crush fingers, and sheet that swings up hits who stands in its way: keep hands off the line where the tools close, and work the machine alone.',
  ),
  'aluminium-grain': caution(
    'folding',
    'cracks along the grain',
    'Hard aluminium tempers crack along the grain: lay the bends across the rolling direction where you can, and try one bend on an offcut.',
  ),
  'hot-work': caution(
    'cutting',
    'hot work',
    'Grinder, torch and weld throw sparks and heat: clear what burns, watch the place afterwards, never weld on a closed tube that has no hole to vent it, and follow local rules for hot work.',
  ),
  'tube-pinch': caution(
    'folding',
    'tube swings',
    'A bender crushes fingers between tube and former, and the free end of the tube swings round as it is bent: stand clear of its way, keep others out of it, and let a pull back slowly, for the tube springs.',
  ),
  'tube-annealing': caution(
    'folding',
    'annealing weakens for good',
    'Heat makes a hard tube soft, and soft it stays: annealing or bending it hot weakens it for good where nobody sees it. It is hot work too: clear what burns, and leave tube that carries load to someone competent.',
  ),
  'fuel-tank': caution(
    'welding',
    'no hot work on a used tank',
    'A used tank holds vapour that burns or explodes at a spark: leave hot work on one, and the making and testing of tanks for fuel, to local rules and licensed practice.',
  ),
  'weld-for-bend': caution(
    'welding',
    'a weld is another joint than a bend',
    'A weld in place of a bend is another joint than the one that was drawn: where it carries a load, leave it to licensed practice and local rules.',
  ),
  'tank-opening': caution(
    'welding',
    'no hot work on what was on a tank',
    'What was on a tank, a filler neck, a sender or the ring it sat on, may hold fuel and vapour as the tank does: leave hot work on it, and on the tank, to local rules and licensed practice.',
  ),
  'weld-heat': caution(
    'welding',
    'tack first',
    'Welding pulls thin sheet out of shape: tack first, and check the dimensions before the seams are closed.',
  ),
  'load-bearing': caution(
    'fitting',
    'strength unchecked',
    'The figures say nothing about strength: have a bracket that carries load designed or checked by someone competent, as local rules ask.',
  ),
  'carried-load': caution(
    'fitting',
    'must hold its load in a crash',
    'What holds a battery or another heavy thing must hold it in a crash too, and keep its poles off metal: the figures say nothing of that, have it checked by someone competent, and follow local rules.',
  ),
  suspension: caution(
    'fitting',
    'springs under load',
    'Springs and struts under a tower are under load and can kill when let go: leave work on suspension, and changes near its mountings, to local rules and licensed practice.',
  ),
  'pedal-area': caution(
    'fitting',
    'pedals must stay free',
    "Nothing beside the pedals may foul them, trap a foot or come loose: try every pedal over its whole travel with the shoes worn, fix the part by more than one screw, and follow local rules for changes to the driver's place.",
  ),
  'tube-licensed': caution(
    'fitting',
    'cages, steering, suspension, fuel and brake lines: licensed practice',
    'Tube of safety cages, steering and suspension, and lines for fuel and brakes, fall under rules of their own: leave them to licensed practice and local rules. The figures here say nothing about strength.',
  ),
  'safety-relevant': caution(
    'fitting',
    'approval rules',
    'Seats, belts, steering, brakes, couplings and lamps of road vehicles fall under approval rules: leave their brackets to licensed practice.',
  ),
  'leak-test': caution(
    'fitting',
    'leak test',
    'Test a tank for leaks before it is used, in the way that local rules ask for, water in it rather than air: air under pressure bursts a closed tank.',
  ),
} as const satisfies Readonly<Record<string, Caution>>;

export type CautionId = keyof typeof CAUTIONS;

export const cautionText = (id: CautionId): string => CAUTIONS[id].text;

/** The rule of a finding that is a caution. */
export const cautionRule = (id: CautionId): `caution-${CautionId}` => `caution-${id}`;

/**
 * What is told of a tank before all else, whatever is done to it: it has killed at the first spark, and
 * at the test.
 */
const BEFORE_ALL: readonly Caution[] = [CAUTIONS['fuel-tank'], CAUTIONS['leak-test']];

/** Those of some cautions that stand on every page, not on the first alone. */
export const onEveryPage = (cautions: readonly Caution[]): readonly Caution[] =>
  BEFORE_ALL.filter((one) => cautions.includes(one));

/**
 * The cautions among findings, each once: those of tanks, then in the order of the work. One of a family from outside
 * stands in its own words, before the part is fitted.
 */
export const cautionsAmong = (
  findings: readonly Pick<Finding, 'rule' | 'message'>[],
): readonly Caution[] => {
  const told = new Map(findings.filter(isCaution).map((f) => [f.message, known(f)]));
  const all = [...told.values()];
  const first = onEveryPage(all);
  const others = all.filter((one) => !first.includes(one));
  return [...first, ...CAUTION_STEPS.flatMap((step) => others.filter(({ at }) => at === step))];
};

const known = ({ rule, message }: Pick<Finding, 'rule' | 'message'>): Caution =>
  Object.values(CAUTIONS).find((_, i) => rule === cautionRule(CAUTION_IDS[i] as CautionId)) ?? {
    at: 'fitting',
    short: message,
    text: message,
  };

/** Cautions for any part of a family, made of this sheet, each once, in the order of the work. */
export const cautionsFor = (
  family: readonly CautionId[],
  material: Pick<Material, 'family'>,
  isFolded: boolean,
): readonly CautionId[] => {
  const wanted = new Set<CautionId>([
    'eyes',
    ...(isFolded ? (['pinch'] as const) : []),
    ...materialCautions(material),
    ...family,
  ]);
  return CAUTION_IDS.filter((id) => wanted.has(id));
};

const CAUTION_IDS = Object.keys(CAUTIONS) as readonly CautionId[];

const materialCautions = (material: Pick<Material, 'family'>): readonly CautionId[] => {
  switch (material.family) {
    case 'galvanised':
      return ['galvanised-fume'];
    case 'stainless':
      return ['stainless-fume'];
    case 'aluminium':
      return ['aluminium-fume', 'aluminium-grain'];
    case 'steel':
      return ['steel-fume'];
  }
};
