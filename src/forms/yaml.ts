import { type Document, isMap, isNode, isScalar, type LineCounter, type Pair } from 'yaml';
import * as yaml from 'yaml';

/** The steps from the top of a document to a value: names and, in lists, numbers from 0. */
export type ValuePath = readonly (string | number)[];

/**
 * The contents of a YAML text, or `given`, which says where it goes wrong, and `mend`, which says
 * why.
 */
export type ParsedYaml =
  | {
      readonly ok: true;
      readonly value: unknown;
      /**
       * Place of the value, such as `line 3, column 5`, or of the nearest thing round it that is
       * written; of the name itself for `'name'`.
       */
      readonly placeOf: (path: ValuePath, what: 'value' | 'name') => string;
    }
  | { readonly ok: false; readonly given: string; readonly mend?: string };

/**
 * The YAML reader recurses and would run out of stack; this is far more than anything written by
 * hand needs.
 */
const DEEPEST = 60;

/** Reads YAML 1.2, and so JSON. Never throws, whatever the text. */
export function parseYaml(text: string): ParsedYaml {
  if (isDeep(text)) return { ok: false, given: `nested more than ${DEEPEST} deep` };
  const lines = new yaml.LineCounter();
  const document = yaml.parseDocument(text, {
    lineCounter: lines,
    uniqueKeys: false,
    prettyErrors: false,
    logLevel: 'error',
  });
  const [problem] = [...document.errors, ...document.warnings];
  if (problem !== undefined)
    return {
      ok: false,
      given: placeAt(lines, problem.pos[0]),
      mend: problem.message.split('\n')[0] ?? '',
    };
  const twice = secondOf(document);
  if (twice !== undefined)
    return {
      ok: false,
      given: placeAt(lines, twice.range?.[0] ?? 0),
      mend:
        twice.value === '__proto__'
          ? 'nothing is called __proto__; leave it out'
          : `${String(twice.value)} stands there a second time`,
    };
  keepEndless(document);
  try {
    // Aliases that multiply, and others that lead nowhere, come to light only here.
    const value: unknown = document.toJS({ maxAliasCount: 20 });
    return { ok: true, value, placeOf: (path, what) => placeOf(document, lines, path, what) };
  } catch (error) {
    return {
      ok: false,
      given: 'its aliases',
      mend: error instanceof Error ? error.message : String(error),
    };
  }
}

/**
 * Keeps a number that is too large for a number as it was written, so that it is refused as such.
 * `.inf` is intended.
 */
function keepEndless(document: Document): void {
  yaml.visit(document, {
    Scalar: (_, node) => {
      if (
        typeof node.value === 'number' &&
        !Number.isFinite(node.value) &&
        node.source !== undefined &&
        /\d/.test(node.source)
      )
        node.value = node.source;
    },
  });
}

/**
 * The first name that a map has twice. The reader's own search compares every name with every
 * other.
 */
function secondOf(document: Document): yaml.Scalar | undefined {
  let found: yaml.Scalar | undefined;
  yaml.visit(document, {
    Map: (_, map) => {
      const names = new Set<string>();
      for (const { key } of map.items) {
        if (!isScalar(key)) continue;
        const name = String(key.value);
        if (names.has(name) || name === '__proto__') {
          found = key;
          return yaml.visit.BREAK;
        }
        names.add(name);
      }
      return undefined;
    },
  });
  return found;
}

/**
 * Whether the text is nested too deeply: the parser keeps its own stack and takes any depth, but
 * the code behind it recurses.
 */
function isDeep(text: string): boolean {
  const parser = new yaml.Parser();
  for (const lexeme of new yaml.Lexer().lex(text)) {
    Array.from(parser.next(lexeme));
    if (parser.stack.length > DEEPEST) return true;
  }
  return false;
}

const placeAt = (lines: LineCounter, offset: number): string => {
  const { line, col } = lines.linePos(offset);
  return `line ${line}, column ${col}`;
};

function placeOf(
  document: Document,
  lines: LineCounter,
  path: ValuePath,
  what: 'value' | 'name',
): string {
  const name = what === 'name' ? nameNode(document, path) : undefined;
  for (let length = path.length; name === undefined && length > 0; length -= 1) {
    const node = document.getIn(path.slice(0, length), true);
    if (isNode(node) && node.range) return placeAt(lines, node.range[0]);
  }
  return placeAt(lines, name?.range?.[0] ?? document.contents?.range?.[0] ?? 0);
}

const nameNode = (document: Document, path: ValuePath): yaml.Scalar | undefined => {
  const map = path.length === 1 ? document.contents : document.getIn(path.slice(0, -1), true);
  if (!isMap(map)) return undefined;
  const key = map.items
    .map((pair: Pair) => pair.key)
    .find((k) => isScalar(k) && String(k.value) === String(path.at(-1)));
  return isScalar(key) ? key : undefined;
};
