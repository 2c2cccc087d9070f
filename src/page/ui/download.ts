/** A file that the person at the page may take, by a link. */
export interface Offered {
  readonly name: string;
  readonly href: string;
}

/** The files as links; those of `before` are let go. */
export const offer = (
  files: readonly { readonly name: string; readonly contents: string | Uint8Array }[],
  before: readonly Offered[] = [],
): readonly Offered[] => {
  for (const { href } of before) URL.revokeObjectURL(href);
  return files.map(({ name, contents }) => ({
    name,
    href: URL.createObjectURL(
      new Blob([contents as BlobPart], { type: 'application/octet-stream' }),
    ),
  }));
};

/** Gives one file to the person at the page, by the browser's own way. */
export const download = (name: string, contents: string | Uint8Array): void => {
  const [one] = offer([{ name, contents }]);
  if (one === undefined) return;
  const link = document.createElement('a');
  link.href = one.href;
  link.download = name;
  link.click();
  // The browser may still be reading it when the click returns.
  setTimeout(() => URL.revokeObjectURL(one.href), 60_000);
};
