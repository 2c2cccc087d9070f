import type { Folder, Machine } from '../model/machine.ts';
import { nearest } from '../text/nearest.ts';
import { BOX_PAN } from './machines/box-pan.ts';
import { PRESS_BRAKE } from './machines/press-brake.ts';
import { STRAIGHT } from './machines/straight.ts';

/** The folders of the built-in shop. */
export const FOLDERS: readonly [Folder, ...Folder[]] = [BOX_PAN, STRAIGHT];

/**
 * The machines that are known by their ids, in shop files too; the first is taken when none is
 * named.
 */
export const MACHINES: readonly [Machine, ...Machine[]] = [...FOLDERS, PRESS_BRAKE];

export type MachineLookup =
  { readonly ok: true; readonly value: Machine } | { readonly ok: false; readonly reason: string };

/** The machine of an id; capitals make no difference. */
export const findMachine = (id: string): MachineLookup => {
  const value = MACHINES.find((m) => m.id === id.trim().toLowerCase());
  if (value !== undefined) return { ok: true, value };
  const meant = nearest(
    id,
    MACHINES.map((m) => m.id),
  );
  return {
    ok: false,
    reason:
      meant === undefined
        ? `the machines known are ${MACHINES.map((m) => m.id).join(', ')}`
        : `did you mean ${meant}?`,
  };
};
