import type { CautionId } from '../../data/cautions.ts';
import type { CommonValues } from '../../forms/common.ts';
import type { Finding } from '../../model/finding.ts';
import type { FlatPattern } from '../../model/flat.ts';
import type { Part } from '../../model/part.ts';
import type { Standing } from '../../model/standing.ts';
import type { PartPlan } from '../../plan/of-part/part-plan.ts';
import type { TakenOptions } from './make-options.ts';
import type { Inputs } from '../fit/part-fit.ts';
import type { Teller } from './part-told.ts';

/** What is known of a set of inputs before its first blank is laid flat. */
export interface Context {
  readonly family: string;
  readonly inputs: Inputs;
  readonly values: CommonValues;
  /** The family's own. */
  readonly cautions: readonly CautionId[];
  /** Findings of the template about all of its blanks. */
  readonly findings: readonly Finding[];
  readonly options: TakenOptions;
  readonly tell: Teller;
}

/** A blank of the left hand; without a part it could not be built. */
export interface UnplannedBlank {
  readonly id: string | null;
  readonly quantity?: number;
  readonly part?: Part;
  readonly standing?: Standing;
  /** Findings on the part itself, or remarks on its bends. */
  readonly findings: readonly Finding[];
}

export interface Blank extends UnplannedBlank {
  readonly planOf: (part: Part, flat: FlatPattern) => PartPlan | undefined;
}
