import { open } from 'node:fs/promises';
import { shown } from '../input/given.ts';
import { diskReason, WrongInput } from './failure.ts';

/** Inputs as a file gives them, by name. */
export type FileInputs = Readonly<Record<string, unknown>>;

/** The YAML reader compares every name with every other: a megabyte of them takes it a minute, this under a second. */
const LARGEST_BYTES = 100_000;
/** The YAML reader recurses and would run out of stack; this is far more than any part needs. */
const DEEPEST = 60;

const ALLOWED = 'a YAML or JSON file of inputs, each `name: value`';
const ONE_A_LINE = 'write one input a line, such as legA: 60';

const refuse = (given: string, allowed: string, mend: string): never => {
  throw new WrongInput([{ input: 'from', given, allowed, mend }]);
};

/** The inputs of one part of a known family. The file may name the family, but no other one. */
export const readPartFile = async (path: string, family: string): Promise<FileInputs> => {
  const { family: named, ...inputs } = await readInputsFile(path);
  if (named !== undefined && named !== family) {
    throw new WrongInput([{ input: 'family', given: `${shown(named)} in ${path}`, allowed: `${family}, as the command says, or nothing` }]);
  }
  return inputs;
};

/** Reads a file of inputs. Everything that is wrong with it is a `WrongInput`, of its notation with line and column. */
export const readInputsFile = async (path: string): Promise<FileInputs> => {
  const text = await readText(path);
  const yaml = await import('yaml');
  if (isDeep(text, yaml)) refuse(`${path}, nested more than ${DEEPEST} deep`, ALLOWED, ONE_A_LINE);
  const lines = new yaml.LineCounter();
  const document = yaml.parseDocument(text, { lineCounter: lines, uniqueKeys: true, prettyErrors: false });
  const [problem] = document.errors;
  if (problem !== undefined) {
    const { line, col } = lines.linePos(problem.pos[0]);
    return refuse(`${path}, line ${line}, column ${col}`, ALLOWED, problem.message.split('\n')[0] ?? '');
  }
  const value = toValue(document, path);
  if (typeof value === 'object' && value !== null && !Array.isArray(value)) return value as FileInputs;
  const found = value === null ? 'nothing' : Array.isArray(value) ? 'a list' : 'a single value';
  return refuse(`${path}, which holds ${found}`, ALLOWED, ONE_A_LINE);
};

/** Aliases that multiply, and others that lead nowhere, come to light only here. */
const toValue = (document: { toJS: (options: { maxAliasCount: number }) => unknown }, path: string): unknown => {
  try {
    return document.toJS({ maxAliasCount: 20 });
  } catch (error) {
    return refuse(path, ALLOWED, error instanceof Error ? error.message : String(error));
  }
};

const readText = async (path: string): Promise<string> => {
  try {
    const bytes = await readBytes(path, LARGEST_BYTES + 1);
    if (bytes.length > LARGEST_BYTES) refuse(`${path}, which is larger`, `a file of at most ${LARGEST_BYTES} bytes`, 'give the inputs of one part only');
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch (error) {
    if (error instanceof WrongInput) throw error;
    if (error instanceof TypeError) return refuse(`${path}, which is not UTF-8 text`, ALLOWED, 'save it as UTF-8');
    return refuse(path, ALLOWED, `it cannot be read: ${diskReason(error)}`);
  }
};

/** The beginning of a file, or of a pipe or device, which tell no size and may never end. */
const readBytes = async (path: string, most: number): Promise<Uint8Array> => {
  const file = await open(path, 'r');
  try {
    const bytes = new Uint8Array(most);
    let length = 0;
    for (;;) {
      const { bytesRead } = await file.read(bytes, length, most - length);
      length += bytesRead;
      if (bytesRead === 0 || length === most) return bytes.subarray(0, length);
    }
  } finally {
    await file.close();
  }
};

/** The parser keeps its own stack and so takes any depth; what comes behind it recurses. */
const isDeep = (text: string, { Lexer, Parser }: typeof import('yaml')): boolean => {
  const parser = new Parser();
  for (const lexeme of new Lexer().lex(text)) {
    Array.from(parser.next(lexeme));
    if (parser.stack.length > DEEPEST) return true;
  }
  return false;
};
