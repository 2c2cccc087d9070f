import type { RuleName } from '../rules/index.ts';
import type { NamedRule, Severity } from '../rules/rule.ts';
import type { Amount, Limit } from './measured.ts';
import { type Mend, mendFigure, type ShownUnit } from './mend.ts';

export type { Severity } from '../rules/rule.ts';

/**
 * A fact about a part that its maker should read. A user's mistake is a finding, never an
 * exception.
 */
export interface Finding {
  /**
   * Stable name of the rule, in lower case with hyphens. It is never reworded, since job files
   * silence warnings by it. The rules of this program stand in `rules/` and beside its checks; a
   * family from outside has its own.
   */
  readonly rule: string;
  readonly severity: Severity;
  /**
   * One plain sentence or two: what was given, what is allowed, and the mend with the figure that
   * would pass.
   */
  readonly message: string;
  /** Name of the panel that it is about, where it is about one. */
  readonly panel?: string;
  /** Its place on the blank, mm, in the drawing's coordinates, when there is a single place. */
  readonly at?: readonly [x: number, y: number];
  /**
   * What was measured and what it should be, where both are figures; the message states them too.
   */
  readonly measured?: Amount;
  readonly limit?: Limit;
  /** Names of the inputs that it is about, as in a file; the message names each. */
  readonly inputs?: readonly string[];
  /** Changes of a single input, each of which removes the finding; the message names each. */
  readonly mends?: readonly Mend[];
  /**
   * What the message is composed of besides the mends: what is wrong, and what else would help, in
   * words.
   */
  readonly said?: Said;
  /**
   * Further inputs that another figure might mend, and changes that might help. Making the part
   * again shows which of them do.
   */
  readonly tries?: readonly Try[];
  /**
   * Names of the panels and folds that it is about, where it was found on these and not on inputs.
   */
  readonly on?: { readonly panels: readonly string[]; readonly folds: readonly string[] };
}

/**
 * Something to try: an input whose figure might be changed, an input that only a smaller figure can
 * help, or a complete change.
 */
export type Try = string | { readonly less: string } | Mend;

export interface Said {
  /** What is wrong, without a full stop: `height 50 leaves no metal between the bends`. */
  readonly what: string;
  /** Other ways out, worded to complete the sentence: `move the stub`. */
  readonly others: readonly string[];
  /** The way out where no mend is known, worded in the same way. */
  readonly instead?: string;
}

/**
 * A rule: its name where its entry stands in `rules/`, or the entry itself. A name without an entry
 * does not compile.
 */
export type KnownRule = RuleName | NamedRule;

/** Functions that make findings, each by one of the rules that `Rule` allows. */
export interface Makers<Rule> {
  readonly stop: (rule: Rule, message: string) => Finding;
  readonly warn: (rule: Rule, message: string) => Finding;
  readonly note: (rule: Rule, message: string) => Finding;
  /**
   * A stop about inputs: what is wrong, the inputs with what was given for them, and what would
   * help: changes of one input each, then anything else in words. The message is composed of these.
   */
  readonly refuse: (rule: Rule, ...said: AboutInputs) => Finding;
  /** The same as a warning. */
  readonly advise: (rule: Rule, ...said: AboutInputs) => Finding;
}

type AboutInputs = readonly [
  inputs: readonly string[],
  what: string,
  mends: readonly Mend[],
  ...others: readonly string[],
];

const worded =
  (severity: Severity) =>
  (rule: string | NamedRule, message: string): Finding => ({
    rule: nameOf(rule),
    severity,
    message,
  });

const aboutInputs =
  (severity: Severity) =>
  (rule: string | NamedRule, ...[inputs, what, mends, ...others]: AboutInputs): Finding =>
    composed({
      rule: nameOf(rule),
      severity,
      message: '',
      inputs: [...new Set([...inputs, ...mends.map((m) => m.input)])],
      mends,
      said: { what, others },
    });

const nameOf = (rule: string | NamedRule): string => (typeof rule === 'string' ? rule : rule.rule);

/**
 * The functions for families from outside, whose rules have the names that their authors give them.
 */
export const MAKERS: Makers<string | NamedRule> = {
  stop: worded('stop'),
  warn: worded('warn'),
  note: worded('note'),
  refuse: aboutInputs('stop'),
  advise: aboutInputs('warn'),
};

/** The functions for everything in this program: a rule without an entry does not compile. */
export const { stop, warn, note, refuse, advise }: Makers<KnownRule> = MAKERS;

/** The same finding about one of several things; the message names that thing first. */
export const forOne = (finding: Finding, name: string): Finding => {
  const { said, message } = finding;
  return said === undefined
    ? { ...finding, message: `${name}: ${message}` }
    : composed({ ...finding, said: { ...said, what: `${name}: ${said.what}` } });
};

/** A finding with the way out that is told where no mend is known. */
export const orInstead = (finding: Finding, instead: string): Finding =>
  finding.said === undefined
    ? finding
    : composed({ ...finding, said: { ...finding.said, instead } });

/** A stop with further inputs and changes to try; trying them out shows which of them help. */
export const orTry = (finding: Finding, ...tries: readonly Try[]): Finding => ({
  ...finding,
  tries,
});

/**
 * A finding whose message is composed of its facts; one that was worded as a whole stays as it is.
 * `unitOf` gives the unit in which an input's lengths are told.
 */
export const composed = (
  finding: Finding,
  unitOf: (input: string) => ShownUnit | undefined = () => undefined,
): Finding => {
  const { said, mends = [] } = finding;
  if (said === undefined) return finding;
  const instead = mends.length === 0 && said.instead !== undefined ? [said.instead] : [];
  const ways = [
    ...mends.map((mend, i) =>
      wayOf(
        mend,
        i === 0 && mend.value === undefined && said.what.startsWith(`${mend.input} `),
        unitOf(mend.input),
      ),
    ),
    ...said.others,
    ...instead,
  ];
  // The verb is written once and serves all changes that follow it.
  const list = ways.map((way, i) =>
    i > 0 && way.startsWith(GIVE) && ways[i - 1]?.startsWith(GIVE) === true
      ? way.slice(GIVE.length)
      : way,
  );
  return {
    ...finding,
    message: list.length === 0 ? `${said.what}.` : `${said.what}: ${list.join(', or ')}.`,
  };
};

const GIVE = 'give ';

const wayOf = (mend: Mend, isNamed: boolean, unit: ShownUnit | undefined): string =>
  mend.value === null
    ? `leave out ${mend.input}`
    : `${GIVE}${isNamed ? '' : `${mend.input} `}${mendFigure(mend, unit)}`;

export const hasStop = (findings: readonly Finding[]): boolean =>
  findings.some((f) => f.severity === 'stop');
