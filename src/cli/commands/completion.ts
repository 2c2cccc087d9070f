import { ALL_FAMILIES, FAMILIES } from '../../../templates/index.ts';
import { MATERIALS } from '../../data/materials.ts';
import { describeInputs } from '../../forms/read.ts';
import type { Console } from '../console.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { wordOf } from '../flags.ts';
import { flagsOf } from '../flags-of.ts';
import { COMMANDS, type RunCommand } from './index.ts';

const COMPLETION_USAGE = 'completion bash|zsh';

/**
 * Scripts that ask for the words that may come next; where there are none, the shell offers files.
 */
const SCRIPTS: Readonly<Record<string, string>> = {
  bash: `# Completion of blankwright in bash. Put this into ~/.bashrc: eval "$(blankwright completion bash)"
_blankwright() {
  local IFS=$'\\n'
  COMPREPLY=($(blankwright completion next "\${COMP_WORDS[@]:1:COMP_CWORD}" 2>/dev/null))
}
complete -o default -F _blankwright blankwright`,
  zsh: `# Completion of blankwright in zsh. Put this into ~/.zshrc, behind compinit: eval "$(blankwright completion zsh)"
_blankwright() {
  local -a words_next
  words_next=(\${(f)"$(blankwright completion next "\${(@)words[2,CURRENT]}" 2>/dev/null)"})
  if (( \${#words_next} )); then compadd -- $words_next; else _files; fi
}
compdef _blankwright blankwright`,
};

/**
 * `completion bash`, `completion zsh`: a script for the shell; `completion next WORD...`: possible
 * completions of the last word, a line each.
 */
export const run: RunCommand = async (args, console) => {
  if (args[1] === 'next') {
    for (const word of await nextWords(args.slice(2), console)) console.out(word);
    return EXIT.made;
  }
  const flags = await flagsOf(args, console, { usage: COMPLETION_USAGE, flags: {}, words: 2 });
  if (flags === undefined) return EXIT.made;
  const shell = wordOf(flags);
  const script = SCRIPTS[shell ?? ''];
  if (script === undefined)
    throw new WrongInput([
      {
        input: 'shell',
        given: shell === undefined ? 'nothing' : `'${shell}'`,
        allowed: `bash or zsh: blankwright ${COMPLETION_USAGE}`,
      },
    ]);
  console.out(flags['json'] === true ? JSON.stringify({ script }) : script);
  return EXIT.made;
};

const ON_FAMILIES = ['describe', 'make', 'plan'];

/** Words that may stand in place of the last one, which may be incomplete or empty. */
const nextWords = async (given: readonly string[], console: Console): Promise<string[]> => {
  const words = given.length === 0 ? [''] : given;
  const begun = words.at(-1) as string;
  const before = words.slice(0, -1);
  const [command, family] = before;
  const all =
    command === undefined
      ? Object.keys(COMMANDS)
      : await choicesAfter(command, family, before, begun, console);
  return all.filter((word) => word.startsWith(begun));
};

const choicesAfter = async (
  command: string,
  family: string | undefined,
  before: readonly string[],
  begun: string,
  console: Console,
): Promise<readonly string[]> => {
  if (command === 'completion') return Object.keys(SCRIPTS);
  if (command === 'reason' && family === undefined && !begun.startsWith('-'))
    return [...(await import('../../use/rules.ts')).RULES.keys()];
  const isOfFamily = ON_FAMILIES.includes(command);
  // The folds of sheet alone are planned.
  const families = command === 'plan' ? FAMILIES : ALL_FAMILIES;
  if (isOfFamily && family === undefined && !begun.startsWith('-')) return [...families.keys()];
  const flag = before.at(-1);
  if (flag?.startsWith('--') === true && isOfFamily) {
    const values = await valuesOf(family, flag.slice(2));
    if (values.length > 0) return values;
  }
  return begun.startsWith('-') ? flagsNamed(before, console) : [];
};

/** The values of an input that takes one of a few. */
const valuesOf = async (family: string | undefined, flag: string): Promise<readonly string[]> => {
  const load = ALL_FAMILIES.get(family ?? '');
  if (load === undefined) return [];
  const input = describeInputs((await load()).default).find((i) => i.flag === flag);
  if (input?.kind === 'material') return MATERIALS.map((m) => m.id);
  return input?.choices ?? [];
};

/** The flags that the help of a command line lists. */
const flagsNamed = async (before: readonly string[], console: Console): Promise<string[]> => {
  const [command, family] = before;
  const load = Object.hasOwn(COMMANDS, command as string) ? COMMANDS[command as string] : undefined;
  if (load === undefined) return [];
  const pages: string[] = [];
  const listener: Console = {
    ...console,
    out: (text) => void pages.push(text),
    err: () => undefined,
  };
  const named = family === undefined || family.startsWith('-') ? [] : [family];
  await (await load.load()).run([command as string, ...named, '--help'], listener);
  return [...new Set(pages.join('\n').match(/(?<=^\s+(?:-\w, )?)--[a-z][\w-]*/gm) ?? [])];
};
