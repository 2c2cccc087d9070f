import { printable } from './printable.ts';
import { refuse } from './refusal.ts';

/** Larger files hold pictures or whole buildings, and take longer to read than a person waits. */
export const LARGEST_BYTES = 64_000_000;

/**
 * The header stands within this many bytes. A file that states no version in them is read as the
 * oldest files are.
 */
const HEADER_BYTES = 200_000;

/** Releases by `$ACADVER` (DXF Reference, header variables; ezdxf documentation). */
const RELEASES: Readonly<Record<string, string>> = {
  AC1006: 'R10',
  AC1009: 'R12',
  AC1012: 'R13',
  AC1014: 'R14',
  AC1015: '2000',
  AC1018: '2004',
  AC1021: '2007',
  AC1024: '2010',
  AC1027: '2013',
  AC1032: '2018',
};

/** Names of code pages that the platform's decoder knows under another name than DXF. */
const CODE_PAGES: Readonly<Record<string, string>> = {
  ANSI_932: 'shift_jis',
  ANSI_936: 'gbk',
  ANSI_949: 'euc-kr',
  ANSI_950: 'big5',
  ANSI_874: 'windows-874',
};

export interface DecodedDxf {
  readonly text: string;
  /**
   * The release, such as `2000`; the file's own text where no release is known by it, and `not
   * stated` where there is none.
   */
  readonly version: string;
}

/**
 * The text of a DXF file. Files from release 2007 on are UTF-8; older ones are in the code page
 * that they name, or in windows-1252 (DXF Reference, `$DWGCODEPAGE`). Refuses a file that is not
 * DXF text: one that is too large, binary, or a drawing in another format.
 */
export const decodeDxf = (bytes: Uint8Array): DecodedDxf => {
  if (bytes.length > LARGEST_BYTES)
    refuse(
      `it is larger than ${LARGEST_BYTES / 1e6} MB`,
      'leave pictures, hatches and other parts out, or draw curves as arcs',
    );
  const head = new TextDecoder('latin1').decode(bytes.subarray(0, HEADER_BYTES));
  if (head.trim() === '') refuse('it is empty', 'save it again');
  if (/^.{0,12}Binary DXF\r?\n/.test(head))
    refuse('it is binary DXF', 'save it as DXF in text form (ASCII), release 2000 or 12');
  if (/^AC10\d\d/.test(head))
    refuse(
      'it is a drawing in the binary format of its program, not a DXF',
      'save it as DXF in text form',
    );
  if (/^(?:\u00ff\u00fe|\u00fe\u00ff)/.test(head))
    refuse('its text is UTF-16', 'save it as UTF-8, or as its program writes DXF');
  const stated = valueAfter(head, '$ACADVER');
  const isUtf8 = head.startsWith('\u00ef\u00bb\u00bf') || (stated ?? '') >= 'AC1021';
  const version =
    stated === undefined
      ? 'not stated'
      : Object.hasOwn(RELEASES, stated)
        ? (RELEASES[stated] as string)
        : printable(stated);
  return {
    text: new TextDecoder(isUtf8 ? 'utf-8' : codePage(valueAfter(head, '$DWGCODEPAGE'))).decode(
      bytes,
    ),
    version,
  };
};

/** The value of a header variable, which follows its name and a group code. */
const valueAfter = (head: string, name: string): string | undefined => {
  const at = head.indexOf(name);
  return at < 0
    ? undefined
    : head
        .slice(at, at + 200)
        .split('\n')[2]
        ?.trim();
};

const codePage = (stated = ''): string => {
  const upper = stated.toUpperCase();
  if (/^ANSI_125[0-8]$/.test(upper)) return `windows-${upper.slice(5)}`;
  return Object.hasOwn(CODE_PAGES, upper) ? (CODE_PAGES[upper] as string) : 'windows-1252';
};
