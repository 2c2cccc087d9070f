import { drawBlank } from '../../src/paper/draw/blank.ts';
import { flatten } from '../../src/flatten/flatten.ts';
import type { BendRule } from '../../src/model/bend-rule.ts';
import { hasStop } from '../../src/model/finding.ts';
import type { Part } from '../../src/model/part.ts';
import type { Asked } from '../../src/contract/asked.ts';
import { askedOf } from '../../src/measure/asked-part.ts';
import { proveDxf } from '../../src/proof/proof.ts';
import { writeDxf } from '../../src/dxf/write/dxf.ts';
import type { Proof } from '../../src/contract/proof.ts';

/** A part on its way to a file: what it should measure, and the file's text. */
export interface Blank {
  readonly asked: Asked;
  readonly dxf: string;
}

/** The blank of a part; `undefined` for a part that cannot be made flat. */
export const blankOf = (
  part: Part,
  rule: BendRule = { id: 'din6935' },
  version: 'r2000' | 'r12' = 'r2000',
): Blank | undefined => {
  const flat = flatten(part, rule);
  if (hasStop(flat.findings)) return undefined;
  const drawing = drawBlank(flat, { title: part.name, lines: [], mark: part.name, remarks: [] });
  return { asked: askedOf(part, flat, 0), dxf: writeDxf(drawing, { version, cutOnly: false }) };
};

export const proofOf = (dxf: string, asked: Asked): Proof => {
  const proved = proveDxf(dxf, asked);
  if (!proved.ok) throw new Error(proved.reason);
  return proved.proof;
};

export const stopsOf = ({ findings }: Proof): string[] =>
  findings.filter((f) => f.severity === 'stop').map((f) => f.rule);

/** Value that was found for a measure. */
export const foundOf = ({ measures }: Proof, name: string): number | null | undefined =>
  measures.find((m) => m.name === name)?.foundMm;

/**
 * The same text with some of its numbers changed: `change` sees each group of the entities and may
 * give another value.
 */
export const edited = (dxf: string, change: (group: Group) => string | undefined): string => {
  const lines = dxf.split('\n');
  let [type, layer] = ['', ''];
  for (let i = lines.indexOf('ENTITIES') + 1; i + 1 < lines.length; i += 2) {
    const [code, value] = [Number(lines[i]), lines[i + 1] as string];
    if (code === 0) [type, layer] = [value, ''];
    if (code === 8) layer = value;
    lines[i + 1] = change({ type, layer, code, value, at: i }) ?? value;
  }
  return lines.join('\n');
};

export interface Group {
  readonly type: string;
  readonly layer: string;
  readonly code: number;
  readonly value: string;
  /** Its place in the text, which no two groups share. */
  readonly at: number;
}
