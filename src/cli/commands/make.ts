import type { AnyTemplate } from '../../input/any-template.ts';
import { type MadePart, makeParts } from '../../job.ts';
import type { MakeResult } from '../../result.ts';
import type { Console } from '../console.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { saveAll } from '../save.ts';
import { partText } from '../part-text.ts';

export interface MakeRequest {
  readonly template: AnyTemplate;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly out: string;
  readonly cutOnly: boolean;
  readonly dxfVersion: 'r2000' | 'r12';
  readonly force: boolean;
}

/** `make FAMILY`: the finished files, or what stands in their way. JSON: `MakeResult`. Nothing is written on a stop. */
export const make = async (request: MakeRequest, json: boolean, { out, err }: Console): Promise<number> => {
  const made = makeParts(request.template, request.inputs, request);
  if (!made.ok) throw new WrongInput(made.problems);
  const { parts } = made;
  const isStopped = parts.some((p) => p.stopped);
  const files = isStopped ? [] : await saveAll(request.out, parts.flatMap(markedFiles), request.force);
  const perPart = files.length / parts.length;
  const filesOf = (i: number): readonly string[] => files.slice(i * perPart, (i + 1) * perPart);
  if (json) {
    const result: MakeResult = { parts: parts.map((p, i) => ({ ...p.result, files: filesOf(i) })) };
    out(JSON.stringify(result));
  } else {
    const print = isStopped ? err : out;
    parts.forEach((p, i) => print(partText(p.result, filesOf(i))));
    if (isStopped) err('Nothing was written.');
  }
  return isStopped ? EXIT.stopped : EXIT.made;
};

const markedFiles = (part: MadePart) => part.files().map((f) => ({ ...f, mark: part.mark }));
