import { composed, type Finding } from './finding.ts';
import { isPossible, type Mend } from './mend.ts';

/**
 * The findings, each told once. Several of one rule that the same inputs mend, such as a corner
 * radius that is too big for two legs, become the one that asks for most, with the figures that do
 * for all of them. Findings that name no input to change are the same only when their wording is
 * the same.
 */
export const tellOnce = (findings: readonly Finding[]): Finding[] => {
  const told = new Map<string, Finding>();
  for (const finding of findings) {
    const key = keyOf(finding);
    const before = told.get(key);
    told.set(key, before === undefined ? finding : stricter(before, finding));
  }
  return [...told.values()].map((finding) => withoutImpossible(finding));
};

const keyOf = ({
  rule,
  severity,
  message,
  inputs = [],
  mends = [],
  tries = [],
}: Finding): string => {
  const about =
    mends.length > 0 ? mends.map(({ input }) => input) : tries.length > 0 ? inputs : [message];
  return `${severity} ${rule} ${about.toSorted().join(' ')}`;
};

/**
 * The finding without impossible mends: a figure that helps only one of the merged findings is no
 * mend of both.
 */
const withoutImpossible = (finding: Finding): Finding => {
  const possible = finding.mends?.filter(isPossible);
  return possible === undefined || possible.length === finding.mends?.length
    ? finding
    : composed({ ...finding, mends: possible });
};

/** Whether two mends ask for the same thing in the same way. */
const isAlike = (a: Mend, b: Mend): boolean =>
  a.input === b.input &&
  a.value === b.value &&
  (a.atLeast === undefined) === (b.atLeast === undefined) &&
  (a.atMost === undefined) === (b.atMost === undefined);

/** The one of two that asks for more of its first input, with the figures that do for both. */
function stricter(a: Finding, b: Finding): Finding {
  const shared = (a.mends ?? []).flatMap((own): { readonly own: Mend; readonly both: Mend }[] => {
    const other = b.mends?.find((mend) => isAlike(mend, own));
    return other === undefined ? [] : [{ own, both: bothOf(own, other) }];
  });
  const [first] = shared;
  const worse =
    first === undefined ||
    (first.both.atLeast === first.own.atLeast && first.both.atMost === first.own.atMost)
      ? a
      : b;
  return composed({ ...worse, mends: shared.map(({ both }) => both) });
}

const bothOf = (a: Mend, b: Mend): Mend => ({
  ...a,
  ...(a.atLeast !== undefined && { atLeast: Math.max(a.atLeast, b.atLeast ?? a.atLeast) }),
  ...(a.atMost !== undefined && { atMost: Math.min(a.atMost, b.atMost ?? a.atMost) }),
});
