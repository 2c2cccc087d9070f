import type { InspectedFile } from '../../contract/inspection.ts';
import { inspectionText } from '../../inspect/inspection-text.ts';

/** What was found in a file, and what was written from it, as a person reads it. */
export const inspectedText = (result: InspectedFile): string => {
  const { file, findings, mended, unmended, picture } = result;
  const told = new Set(findings.map((f) => f.message));
  return [
    inspectionText(file, result),
    ...(mended === null
      ? []
      : [`  mended copy ${mended.file}`, ...mended.changes.map((change) => `    ${change}`)]),
    ...(unmended === null
      ? []
      : [
          '  no mended copy: what stops the file is for you to mend',
          ...unmended.filter((f) => !told.has(f.message)).map((f) => `    ${f.message}`),
        ]),
    ...(picture === null ? [] : [`  picture   ${picture}`]),
  ].join('\n');
};
