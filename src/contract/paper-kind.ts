/** What is made beside the files to cut: a card template, a job sheet, the folded part in 3D. */
export const PAPER_KINDS = ['card', 'sheet', 'model', 'step'] as const;

export type PaperKind = (typeof PAPER_KINDS)[number];
