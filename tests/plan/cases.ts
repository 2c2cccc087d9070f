import { readCase } from '../../src/plan/of-panels/panels.ts';
import type { FoldNet } from '../../src/plan/machines/net.ts';
import type { Machine } from '../../src/model/machine.ts';
import { publishedFile } from '../helpers/published.ts';

/** A worked case of tests/published/folding.json. */
export interface FoldingCase {
  readonly id: string;
  readonly machine: {
    readonly profile: string;
    readonly settings: Readonly<Record<string, unknown>>;
  };
  readonly part: CasePart;
  readonly strokes_allowed?: readonly (readonly string[])[];
  readonly expected: {
    readonly feasible: boolean;
    readonly feasible_orders?: number;
    readonly feasible_stroke_orders?: number;
    readonly total_orders?: number;
    readonly max_bends_reachable?: number;
    readonly orders?: readonly unknown[];
    readonly min_flips?: number;
    readonly blocked?: readonly unknown[];
    readonly always_before?: readonly (readonly [string, string])[];
  };
}

export interface CasePart {
  readonly thickness_mm: number;
  readonly root: string;
  readonly panels: readonly {
    readonly id: string;
    readonly pieces: readonly (readonly (readonly [number, number])[])[];
  }[];
  readonly bends: readonly {
    readonly id: string;
    readonly parent: string;
    readonly child: string;
    readonly line: readonly (readonly [number, number])[];
    readonly angle_deg: number;
  }[];
}

export const FOLDING = publishedFile<{
  readonly cases: readonly FoldingCase[];
  readonly calc_checks: readonly {
    readonly id: string;
    readonly expected: Readonly<Record<string, number | string>>;
  }[];
  readonly machine_profiles: Readonly<Record<string, Profile>>;
}>('folding');

export interface Profile {
  readonly fields: Readonly<Record<string, { readonly value: unknown }>>;
  readonly section_polygons?: Readonly<Record<string, unknown>>;
}

export const caseOf = (id: string): FoldingCase => {
  const found = FOLDING.cases.find((c) => c.id === id);
  if (found === undefined) throw new Error(`folding.json has no case ${id}`);
  return found;
};

/** A case as the planner takes it; its wrong inputs are a mistake of the test. */
export const readOf = (
  given: unknown,
  machine?: string,
): { readonly net: FoldNet; readonly machine: Machine } => {
  const read = readCase(given, machine);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read;
};

/** The same case with machine settings changed. */
export const withSettings = (
  given: FoldingCase,
  settings: Readonly<Record<string, unknown>>,
): FoldingCase => ({
  ...given,
  machine: { ...given.machine, settings: { ...given.machine.settings, ...settings } },
});
