import { readFile, stat } from 'node:fs/promises';
import { diskReason, WrongInput } from './failure.ts';

const LARGEST_BYTES = 1_000_000;
/** The YAML reader recurses; this is far more than any part needs. */
const DEEPEST = 60;

const refuse = (given: string, allowed: string, mend: string): never => {
  throw new WrongInput([{ input: 'from', given, allowed, mend }]);
};

const ALLOWED = 'a YAML or JSON file of inputs, each `name: value`';

/** Reads a file of inputs. Everything that is wrong with it is a `WrongInput` with line and column. */
export const readInputsFile = async (path: string): Promise<Readonly<Record<string, unknown>>> => {
  const text = await readText(path);
  const { parseDocument, LineCounter } = await import('yaml');
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines, uniqueKeys: true, prettyErrors: false, maxAliasCount: 20 } as object);
  const [problem] = document.errors;
  if (problem !== undefined) {
    const { line, col } = lines.linePos(problem.pos[0]);
    return refuse(`${path}, line ${line}, column ${col}`, ALLOWED, problem.message.split('\n')[0] ?? '');
  }
  const value = toValue(document, path);
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    return refuse(`${path}, which holds ${value === null ? 'nothing' : Array.isArray(value) ? 'a list' : 'a single value'}`, ALLOWED, 'write one input a line, such as legA: 60');
  }
  return value as Record<string, unknown>;
};

const toValue = (document: { toJS: (options: { maxAliasCount: number }) => unknown }, path: string): unknown => {
  try {
    return document.toJS({ maxAliasCount: 20 });
  } catch (error) {
    return refuse(path, ALLOWED, error instanceof Error ? error.message : String(error));
  }
};

const readText = async (path: string): Promise<string> => {
  try {
    const { size } = await stat(path);
    if (size > LARGEST_BYTES) refuse(`${path}, ${size} bytes`, `a file of at most ${LARGEST_BYTES} bytes`, 'give the inputs of one part only');
    const text = new TextDecoder('utf-8', { fatal: true }).decode(await readFile(path));
    if (deepest(text) > DEEPEST) refuse(`${path}, nested more than ${DEEPEST} deep`, ALLOWED, 'write one input a line, such as legA: 60');
    return text;
  } catch (error) {
    if (error instanceof WrongInput) throw error;
    if (error instanceof TypeError) return refuse(`${path}, which is not UTF-8 text`, ALLOWED, 'save it as UTF-8');
    return refuse(path, ALLOWED, `it cannot be read: ${diskReason(error)}`);
  }
};

/** How deep brackets, and dashes or indents of two at a line's start, nest; indents of one make it twice as deep at most. */
const deepest = (text: string): number => {
  let open = 0;
  let most = 0;
  for (const c of text) {
    if (c === '[' || c === '{') most = Math.max(most, ++open);
    else if (c === ']' || c === '}') open--;
  }
  for (const [lead] of text.matchAll(/^[ \t]*(?:[-?:][ \t]+)*/gm)) {
    most = Math.max(most, lead.length / 2);
  }
  return most;
};
