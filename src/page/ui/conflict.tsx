import { settle, jobText, theirs } from './state.ts';

/** Lines of two texts beside each other: those that only one of them has are marked. */
const LineByLine = ({ mine, other }: { readonly mine: string; readonly other: string }) => {
  const mineLines = new Set(mine.split('\n'));
  const otherLines = new Set(other.split('\n'));
  const side = (text: string, known: ReadonlySet<string>, title: string) => (
    <div>
      <h3>{title}</h3>
      <pre class="lines">
        {text
          .split('\n')
          .map((line, i) =>
            known.has(line) ? (
              <span key={i}>{`  ${line}\n`}</span>
            ) : (
              <mark key={i}>{`> ${line}\n`}</mark>
            ),
          )}
      </pre>
    </div>
  );
  return (
    <div class="beside">
      {side(mine, otherLines, 'On this page')}
      {side(other, mineLines, 'In the file')}
    </div>
  );
};

/** What is asked when the job file was changed by somebody else while it was open here. */
export const Conflict = () => {
  const other = theirs.value;
  if (other === undefined) return null;
  return (
    <section class="said warn" role="alert">
      <h2>The job file was changed elsewhere</h2>
      <p>Nothing is lost: both are here. Choose which one goes on; Undo brings the other back.</p>
      <div class="row">
        <button type="button" onClick={() => settle(jobText.value, 'kept this page')}>
          Keep what is on this page
        </button>
        <button type="button" onClick={() => settle(other, 'took the file as changed elsewhere')}>
          Take what is in the file
        </button>
      </div>
      <LineByLine mine={jobText.value} other={other} />
    </section>
  );
};
