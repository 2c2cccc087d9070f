import type { Printed } from '../../text/printed.ts';
import type { SheetBlock } from './content.ts';

/**
 * A block with the lengths in its texts as they are printed: findings, cautions and captions are
 * written in mm wherever they come from. Pictures and figures of tables are printed so already.
 */
export const printedBlock = (block: SheetBlock, { unit, words }: Printed): SheetBlock => {
  if (unit === 'mm') return block;
  switch (block.kind) {
    case 'overview':
      return block.blank === undefined
        ? block
        : { ...block, blank: { ...block.blank, captions: block.blank.captions.map(words) } };
    case 'picture':
      return { ...block, captions: block.captions.map(words) };
    case 'table':
      return {
        ...block,
        title: words(block.title),
        rows: block.rows.map((row) => row.map(words)),
        ...(block.captions !== undefined && { captions: block.captions.map(words) }),
      };
    case 'steps':
      return {
        ...block,
        captions: block.captions.map(words),
        steps: block.steps.map((step) => ({ ...step, lines: step.lines.map(words) })),
      };
    case 'texts':
      return { ...block, texts: block.texts.map((t) => ({ ...t, text: words(t.text) })) };
    case 'notice':
      return { ...block, text: words(block.text) };
  }
};
