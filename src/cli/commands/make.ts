import type { Template } from '../../input/template.ts';
import { makeParts } from '../../job.ts';
import type { MakeResult } from '../../result.ts';
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
    for (const text of partTexts(parts)) print(text);
    for (const report of made.reports) print(reportText(report));
    if (isStopped) err('Nothing was written.');
  }
  return isStopped ? EXIT.stopped : EXIT.made;
};
