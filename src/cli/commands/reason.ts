import { capital } from '../../text/capital.ts';
import { nearest } from '../../text/nearest.ts';
import type { NamedRule } from '../../rules/rule.ts';
import { RULE_CHAPTERS, type RuleChapter, RULES } from '../../use/rules.ts';
import type { Console } from '../console.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { wordOf } from '../flags.ts';
import { flagsOf } from '../flags-of.ts';
import { wrapWords } from '../terminal.ts';
import type { RunCommand } from './index.ts';

const REASON_USAGE = 'reason [RULE]';

/**
 * `reason RULE`: what a rule of findings means, why, what to do, and where its figure comes from;
 * `reason`: all rules. JSON: `{"rules":[{"rule","title","severities","reason","measured","mend",
 * "source"}]}`, for one rule too.
 */
export const reason = (name: string | undefined, json: boolean, { out }: Console): number => {
  const rules = name === undefined ? [...RULES.values()] : [ruleCalled(name)];
  if (json) out(JSON.stringify({ rules }));
  else if (name === undefined) out(listText());
  else for (const rule of rules) out(ruleText(rule));
  return EXIT.made;
};

const ruleCalled = (name: string): NamedRule => {
  const known = RULES.get(name);
  if (known !== undefined) return known;
  const meant = nearest(name, RULES.keys());
  throw new WrongInput([
    {
      input: 'rule',
      given: `'${name}'`,
      allowed:
        'the name of a rule, as it stands behind each finding; blankwright reason lists them',
      ...(meant !== undefined && { mend: `did you mean ${meant}?` }),
    },
  ]);
};

const ruleText = ({
  rule,
  title,
  severities,
  reason: why,
  measured,
  mend,
  source,
}: NamedRule): string =>
  [
    `${rule} (${severities.join(', ')})`,
    wrapWords(title, '  '),
    ...(
      [
        ['Why', why],
        ['What to do', mend],
        ['Measured', sentence(measured)],
        ['Where the limit comes from', sentence(source)],
      ] as const
    ).flatMap(([head, text]) => [head, wrapWords(text, '  ')]),
  ].join('\n');

const sentence = (text: string): string => `${capital(text)}${text.endsWith('.') ? '' : '.'}`;

const listText = (): string =>
  [
    ...RULE_CHAPTERS.map(chapterText),
    `${wrapWords('More of one, such as:', '')}\n  blankwright reason web-too-thin`,
  ].join('\n\n');

const chapterText = ({ title, rules }: RuleChapter): string =>
  [
    wrapWords(title, ''),
    ...rules.map((rule) => `  ${rule.rule}\n${wrapWords(rule.title, '      ')}`),
  ].join('\n');

export const run: RunCommand = async (args, console) => {
  const flags = await flagsOf(args, console, { usage: REASON_USAGE, flags: {}, words: 2 });
  return flags === undefined ? EXIT.made : reason(wordOf(flags), flags['json'] === true, console);
};
