import type { Offered } from './download.ts';

/** Files to be taken, each by a link: browsers ask before they save several by themselves. */
export const Downloads = ({ files }: { readonly files: readonly Offered[] }) => (
  <ul class="files">
    {files.map(({ name, href }) => (
      <li key={href}>
        <a href={href} download={name}>
          {name}
        </a>
      </li>
    ))}
  </ul>
);
