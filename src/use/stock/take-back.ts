import type { TakenBack } from '../../contract/stock.ts';
import type { InputProblem } from '../../forms/problem.ts';
import type { UseCase } from '../use-case.ts';
import { digestOf, readRecord, recordName, settled, type Taking, writeRecord } from './record.ts';

export interface TakeBackRequest {
  /** Name of the shop file in messages; its record is named after it. */
  readonly shopFile: string;
  readonly shopText: string;
  /** Text of the record beside the shop file; `undefined` where there is none. */
  readonly recordText: string | undefined;
}

/**
 * Undoes the last booking: the shop file is put back as it was, letter by letter. The files are the
 * shop file, then the record, to be written in this order. It is refused where nothing is booked,
 * and where the shop file was changed since.
 */
export const takeBack = async (request: TakeBackRequest): Promise<UseCase<TakenBack>> => {
  const { shopFile, shopText, recordText } = request;
  const name = recordName(shopFile);
  const recorded = readRecord(recordText, name);
  if (!recorded.ok) return recorded;
  const record = await settled(recorded.record, shopText);
  const last = record.at(-1);
  const problem = await notToBeUndone(last, shopText, shopFile);
  if (problem !== undefined) return { ok: false, problems: [problem] };
  const { layout, before = '', used, added } = last as Taking;
  return {
    ok: true,
    result: { layout, shop: shopFile, record: name, used, removed: added },
    findings: [],
    files: [
      { name: shopFile, contents: before, mark: '' },
      { name, contents: writeRecord(record.slice(0, -1)), mark: '' },
    ],
  };
};

const notToBeUndone = async (
  last: Taking | undefined,
  shopText: string,
  shopFile: string,
): Promise<InputProblem | undefined> => {
  const allowed = 'a booking that was the last change of the shop file';
  if (last?.before === undefined)
    return {
      input: 'takeBack',
      given: last === undefined ? 'nothing that is booked' : 'a booking of long ago',
      allowed,
      mend: `put ${shopFile} right by hand, should it be wrong`,
    };
  if ((await digestOf(shopText)) === last.afterDigest) return undefined;
  return {
    input: 'takeBack',
    given: `${shopFile}, which was changed since layout ${last.layout} was booked`,
    allowed,
    mend: `put it right by hand: ${handMend(last)}`,
  };
};

/** What to do by hand in place of taking back. */
const handMend = ({ used, added }: Taking): string =>
  [
    ...used.flatMap(({ stock, isRemnant, count, bought, left }) => {
      if (isRemnant) return [`${stock} is there again`];
      return left === null ? [] : [`${count - bought} more of ${stock}`];
    }),
    ...(added.length > 0 ? [`${added.join(', ')} taken out`] : []),
  ].join('; ');
