import type { Material } from '../model/material.ts';

/**
 * Short cautions usual in the trade. Safety-relevant subjects defer to local rules and licensed
 * practice; the texts give no procedure. All of them are common practice.
 */
export const CAUTIONS = {
  'sharp-edges': 'Cut edges are sharp: deburr them before folding, and wear gloves until then.',
  'galvanised-fume':
    'Zinc gives off harmful fume when galvanised sheet is welded or plasma cut: follow local rules for extraction and breathing protection, and coat the bare zones again.',
  'stainless-fume':
    'Welding or plasma cutting stainless steel gives off fume with chromium and nickel in it: follow local rules for extraction and breathing protection.',
  'aluminium-grain':
    'Hard aluminium tempers crack along the grain: lay the bends across the rolling direction where you can, and try one bend on an offcut.',
  'load-bearing':
    'The figures say nothing about strength: have a bracket that carries load designed or checked by someone competent, as local rules ask.',
  'pedal-area':
    "Nothing beside the pedals may foul them, trap a foot or come loose: try every pedal over its whole travel with the shoes worn, fix the part by more than one screw, and follow local rules for changes to the driver's place.",
  'safety-relevant':
    'Seats, belts, steering, brakes, couplings and lamps of road vehicles fall under approval rules: leave their brackets to licensed practice.',
  'fuel-tank':
    'A used tank holds vapour that burns or explodes at a spark: leave hot work on one, and the making and testing of tanks for fuel, to local rules and licensed practice.',
  'leak-test':
    'Test a tank for leaks before it is used, in the way that local rules ask for, water in it rather than air: air under pressure bursts a closed tank.',
  'weld-for-bend':
    'A weld in place of a bend is another joint than the one that was drawn: where it carries a load, leave it to licensed practice and local rules.',
  'weld-heat':
    'Welding pulls thin sheet out of shape: tack first, and check the dimensions before the seams are closed.',
} as const;

export type CautionId = keyof typeof CAUTIONS;

export const cautionText = (id: CautionId): string => CAUTIONS[id];

/** Cautions for any part made of this sheet. */
export const materialCautions = (material: Material): readonly CautionId[] => {
  switch (material.family) {
    case 'galvanised':
      return ['galvanised-fume'];
    case 'stainless':
      return ['stainless-fume'];
    case 'aluminium':
      return ['aluminium-grain'];
    case 'steel':
      return [];
  }
};
