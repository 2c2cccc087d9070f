import { type DxfRecord, textAt } from './records.ts';

/** A block as it is defined, with what it draws. */
export interface Block {
  readonly head: DxfRecord;
  readonly entities: DxfRecord[];
}

/** The blocks of a drawing by their names in capitals. */
export const blocksOf = (records: readonly DxfRecord[]): ReadonlyMap<string, Block> => {
  const blocks = new Map<string, Block>();
  let open: Block | undefined;
  for (const record of records) {
    if (record.type === 'BLOCK') {
      open = { head: record, entities: [] };
      blocks.set((textAt(record, 2) ?? '').toUpperCase(), open);
    } else if (record.type === 'ENDBLK') open = undefined;
    else open?.entities.push(record);
  }
  return blocks;
};
