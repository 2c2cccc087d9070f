import { WrongInput } from './failure.ts';
import { readTextFile } from './read-text-file.ts';

/** Inputs by name, as a file gives them. */
export type FileInputs = Readonly<Record<string, unknown>>;

const ALLOWED = 'a YAML or JSON file of inputs, each `name: value`';
const ONE_A_LINE = 'write one input a line, such as legA: 60';

const refuse = (given: string, allowed: string, mend: string): never => {
  throw new WrongInput([{ input: 'from', given, allowed, mend }]);
};

/**
 * Reads a file of inputs. Everything that is wrong with it is a `WrongInput`; mistakes in its
 * notation have line and column.
 */
export const readInputsFile = async (path: string): Promise<FileInputs> => {
  const text = await readTextFile(path, {
    input: 'from',
    allowed: ALLOWED,
    tooLarge: 'give the inputs of one part only',
  });
  const { parseYaml } = await import('../forms/yaml.ts');
  const read = parseYaml(text);
  if (!read.ok) return refuse(`${path}, ${read.given}`, ALLOWED, read.mend ?? ONE_A_LINE);
  const { value } = read;
  if (typeof value === 'object' && value !== null && !Array.isArray(value))
    return value as FileInputs;
  const found = value === null ? 'nothing' : Array.isArray(value) ? 'a list' : 'a single value';
  return refuse(`${path}, which holds ${found}`, ALLOWED, ONE_A_LINE);
};
