import type { Material } from '../model/material.ts';
import { nearest } from '../nearest.ts';
import { ALUMINIUMS } from './materials/aluminium.ts';
import { STAINLESS } from './materials/stainless.ts';
import { GALVANISED, STEELS } from './materials/steel.ts';

/** The sheet that a small shop buys; every figure with its source. */
export const MATERIALS: readonly Material[] = [...STEELS, ...GALVANISED, ...ALUMINIUMS, ...STAINLESS];

/** Letters and digits alone tell materials apart. */
const bare = (text: string): string => text.toLowerCase().replace(/[^a-z0-9]/g, '');

const BY_NAME = new Map(MATERIALS.flatMap((m) => [m.id, m.name, ...m.aliases].map((name) => [bare(name), m] as const)));

/** The material of an id or another name of it, in any case and punctuation. */
export const findMaterial = (name: string): { readonly ok: true; readonly value: Material } | { readonly ok: false; readonly reason: string } => {
  const found = BY_NAME.get(bare(name));
  if (found !== undefined) return { ok: true, value: found };
  const meant = nearest(name, MATERIALS.map((m) => m.id));
  return { ok: false, reason: meant === undefined ? 'see the list of materials' : `did you mean ${meant}?` };
};
