import type { Material } from '../model/material.ts';
import { nearest } from '../text/nearest.ts';
import { ALUMINIUMS } from './materials/aluminium.ts';
import { looseMaterial } from './materials/loose.ts';
import { STAINLESS } from './materials/stainless.ts';
import { GALVANISED, STEELS } from './materials/steel.ts';

/** The sheet that a small shop buys; every figure has its source. */
export const MATERIALS: readonly Material[] = [
  ...STEELS,
  ...GALVANISED,
  ...ALUMINIUMS,
  ...STAINLESS,
];

/** The letters and digits of a name, which alone tell materials apart. */
const bare = (text: string): string => text.toLowerCase().replace(/[^a-z0-9]/g, '');

const BY_NAME = new Map(
  MATERIALS.flatMap((m) => [m.id, m.name, ...m.aliases].map((name) => [bare(name), m] as const)),
);

/**
 * The material of an id or another name of it, in any case and punctuation. A word that leaves the
 * grade or the temper open gives no material; `reason` then lists those that it may mean and what
 * each is good for, and the person who bends it chooses.
 */
export const findMaterial = (
  name: string,
):
  | { readonly ok: true; readonly value: Material }
  | { readonly ok: false; readonly reason: string } => {
  const found = BY_NAME.get(bare(name));
  if (found !== undefined) return { ok: true, value: found };
  const loose = looseMaterial(name, MATERIALS);
  if (loose !== undefined)
    return { ok: false, reason: `${loose.why}: choose ${listed(loose.materials)}` };
  const meant = nearest(
    name,
    MATERIALS.map((m) => m.id),
  );
  return {
    ok: false,
    reason: meant === undefined ? 'see the list of materials' : `did you mean ${meant}?`,
  };
};

const listed = (materials: readonly Material[]): string => {
  const each = materials.map(({ id, remark }) => `${id} (${remark})`);
  return [...each.slice(0, -2), each.slice(-2).join(' or ')].join(', ');
};
