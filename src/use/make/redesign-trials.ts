import { flattenSound } from '../../flatten/flatten.ts';
import { partFlaws } from '../../flatten/part-flaws.ts';
import { readInputs } from '../../forms/read.ts';
import type { Template } from '../../forms/template.ts';
import { hasStop } from '../../model/finding.ts';
import type { FlatPattern } from '../../model/flat.ts';
import type { Part } from '../../model/part.ts';
import { bendTable } from '../../model/shop.ts';
import { isPlanned } from '../../plan/of-part/shop-plan.ts';
import { hasPlanOnShop, type LastBlocked } from '../../plan/of-part/suggestions.ts';
import { begin, blanksOf } from './begin.ts';
import type { Context } from './context.ts';
import type { FilledOptions } from './make-options.ts';
import { foldFindings, partFindings } from './part-findings.ts';

type Raw = Readonly<Record<string, unknown>>;

/** One blank of a design that could be cut. */
export interface TriedBlank {
  readonly id: string | null;
  readonly quantity: number;
  readonly part: Part;
  readonly flat: FlatPattern;
}

/** What some inputs build, where nothing stops it. */
export interface Design {
  readonly raw: Raw;
  readonly context: Context;
  readonly blanks: readonly TriedBlank[];
}

/** Tries designs on the machines of the shop; every answer is remembered. */
export interface Trials {
  /** The design of other inputs; `undefined` where they cannot be read or something stops it. */
  readonly designOf: (raw: Raw) => Design | undefined;
  /** Whether a part can be laid flat and folded; no answer within its budget counts as no. */
  readonly canBeFolded: (part: Part, context: Context) => boolean;
  /** Whether so many plans were made that no more are. */
  readonly isSpent: () => boolean;
}

/** What the search for an order may spend on one piece of one design. */
const PLAN_BUDGET = 60_000;

/** A part of no more folds than this counts as one plan. */
const FOLDS_OF_PLAN = 12;

/**
 * For how many plans a part counts: laying it flat, cutting it apart and comparing its panels take
 * longer by the square of their number.
 */
const plansOf = ({ folds }: Part): number => Math.max(1, (folds.length / FOLDS_OF_PLAN) ** 2);

/** What is known of pieces by then, for one set of options: who asks next need not plan them again. */
const VERDICTS = new WeakMap<FilledOptions, Map<string, boolean>>();

export function trialsOf(template: Template, options: FilledOptions, mostPlans: number): Trials {
  const known = VERDICTS.get(options) ?? new Map<string, boolean>();
  VERDICTS.set(options, known);
  const { shop, byMachineOnly } = options;
  const lastBlocked: LastBlocked = new Map();
  let made = 0;
  const isSpent = (): boolean => made >= mostPlans;
  const canBeFolded = (part: Part, { values: { rule, material } }: Context): boolean => {
    const { name: _, wishes: __, ...shape } = part;
    const key = JSON.stringify([shape, rule, material.id]);
    const before = known.get(key);
    if (before !== undefined) return before;
    if (isSpent()) return false;
    const flat = partFlaws(part).length > 0 ? undefined : flattenSound(part, rule);
    const isFlat = flat !== undefined && flat.outline.length > 0 && !hasStop(flat.findings);
    const bends = bendTable(shop, material.id);
    const can =
      isFlat &&
      (!isPlanned(part) ||
        hasPlanOnShop({ part, flat, material, bends }, shop.machines, PLAN_BUDGET, {
          byMachineOnly,
          lastBlocked,
        }));
    made += plansOf(part);
    known.set(key, can);
    return can;
  };
  return {
    canBeFolded,
    isSpent,
    designOf: (raw) => designOf(template, raw, { ...options, foldAt: 'service' }),
  };
}

function designOf(template: Template, raw: Raw, options: FilledOptions): Design | undefined {
  const read = readInputs(template, raw);
  if (!read.ok) return undefined;
  const begun = begin(template, raw, read, options);
  if (!begun.ok || hasStop(begun.context.findings)) return undefined;
  const { context, built } = begun;
  const blanks: TriedBlank[] = [];
  for (const { id, quantity = 1, part, findings } of blanksOf(built, context)) {
    if (part === undefined || hasStop(findings)) return undefined;
    const flat = flattenSound(part, context.values.rule);
    if (flat.outline.length === 0 || hasStop(flat.findings)) return undefined;
    const found = [
      ...partFindings(context, part, flat, 'stops'),
      ...foldFindings(context, part, flat, undefined),
    ];
    if (hasStop(found)) return undefined;
    blanks.push({ id, quantity, part, flat });
  }
  return { raw, context, blanks };
}
