import type { Template } from '../../input/template.ts';
import { makeParts } from '../../job.ts';
import type { Shop } from '../../model/shop.ts';
import type { MakeResult } from '../../result.ts';
import type { FoldAt } from '../../plan/shop-plan.ts';
import type { Console } from '../console.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { partTexts } from '../part-text.ts';
import { reportText } from '../report-text.ts';
import { savedParts } from '../save-parts.ts';

export interface MakeRequest {
  readonly template: Template;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly out: string;
  readonly cutOnly: boolean;
  readonly dxfVersion: 'r2000' | 'r12';
  readonly force: boolean;
  /** What the part is checked against, and the file it came from; an assumed small shop when left out. */
  readonly shop?: Shop;
  readonly shopFile?: string;
  readonly foldAt: FoldAt;
  /** Width of the cut, mm, or that of the shop's cutter. */
  readonly kerf: number | 'shop';
  /** How fold lines come onto the metal; as the shop has it when left out. */
  readonly marks?: Shop['marking']['folds'];
}

/** `make FAMILY`: the finished files, or what stands in their way. JSON: `MakeResult`. Nothing is written on a stop. */
export const make = (request: MakeRequest, json: boolean, { out, err }: Console): number => {
  const made = makeParts(request.template, request.inputs, request);
  if (!made.ok) throw new WrongInput(made.problems);
  const isStopped = made.parts.some((p) => p.stopped);
  const parts = savedParts(made.parts, request.out, request.force);
  if (json) {
    const result: MakeResult = { parts, reports: made.reports };
    out(JSON.stringify(result));
  } else {
    const print = isStopped ? err : out;
    if (request.shopFile !== undefined) print(`Checked against the shop of ${request.shopFile}`);
    for (const text of partTexts(parts)) print(text);
    for (const report of made.reports) print(reportText(report));
    if (isStopped) err('Nothing was written.');
  }
  return isStopped ? EXIT.stopped : EXIT.made;
};
