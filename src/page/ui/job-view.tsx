import { withEntry } from '../model/job-text.ts';
import { wordOf } from '../model/word-of.ts';
import { FindPaper } from './find-paper.tsx';
import { JobFiles } from './job-files.tsx';
import { Sheets } from './sheets.tsx';
import { PartCard, stateOf } from './part-card.tsx';
import { lengthText, unit } from './units.ts';
import { ProblemLine } from './said.tsx';
import { change, job, jobText, parts, partsOf, written } from './state.ts';

const Measurements = () => {
  const list = Object.entries(written.value?.measurements ?? {});
  const read = new Map(job.value?.measurements.map((m) => [m.name, m.mm]));
  const set = (name: string, value: string): void =>
    change(
      withEntry(jobText.value, ['measurements', name], value),
      `${name} ${value}`,
      `measurement ${name}`,
    );
  return (
    <section>
      <h2>Measurements that parts share</h2>
      <p>A name for what the tape says once; parts and other measurements may use it in sums.</p>
      <table class="figures">
        <tbody>
          {list.map(([name, given]) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>
                <input
                  aria-label={name}
                  value={String(given)}
                  onInput={(e) => set(name, e.currentTarget.value)}
                />
              </td>
              <td class="means">{meaning(given, read.get(name))}</td>
              <td>
                <button
                  type="button"
                  aria-label={`Take out ${name}`}
                  onClick={() =>
                    change(
                      withEntry(jobText.value, ['measurements', name], undefined),
                      `take out ${name}`,
                    )
                  }
                >
                  Take out
                </button>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <form
        class="row"
        onSubmit={(e) => {
          e.preventDefault();
          const form = e.currentTarget;
          const data = new FormData(form);
          const name = wordOf(data.get('name')).trim();
          const value = wordOf(data.get('value')).trim();
          if (!/^[A-Za-z]\w*$/.test(name) || value === '') return;
          change(withEntry(jobText.value, ['measurements', name], value), `add ${name}`);
          form.reset();
        }}
      >
        <label>
          Name
          <input
            name="name"
            pattern="[A-Za-z][A-Za-z0-9_]*"
            title="letters and digits, a letter first"
            required
          />
        </label>
        <label>
          Value
          <input name="value" required />
        </label>
        <button type="submit">Add measurement</button>
      </form>
    </section>
  );
};

const meaning = (given: unknown, mm: number | undefined): string =>
  mm === undefined
    ? 'not read'
    : String(given) === String(mm) && unit.value === 'mm'
      ? 'mm'
      : `= ${lengthText(mm, 3)}`;

/** What has to be decided before anything is cut, the stops first. */
const Decisions = () => {
  const open = [...parts.value].flatMap(([index, answer]) => {
    const [, word, kind] = stateOf(answer);
    return kind === 'stop' || (kind === 'warn' && answer.problems.length > 0)
      ? [{ index, name: answer.name, word }]
      : [];
  });
  if (open.length === 0) return null;
  return (
    <section class="said warn">
      <h2>Needs a decision first</h2>
      <ul>
        {open.map(({ index, name, word }) => (
          <li key={index}>
            <a href={`#/part/${index}/flat`}>{name}</a>: {word}
          </li>
        ))}
      </ul>
    </section>
  );
};

/** The whole job: its parts, its measurements, and what needs a decision. */
export const JobView = () => {
  const title = wordOf(written.value?.title);
  const list = partsOf();
  const problems = job.value?.problems.filter(({ input }) => input !== 'parts') ?? [];
  return (
    <div class="job">
      <h1>
        <label>
          <span class="label">Job</span>
          <input
            class="title"
            value={title}
            onInput={(e) =>
              change(withEntry(jobText.value, ['title'], e.currentTarget.value), 'title', 'title')
            }
          />
        </label>
      </h1>
      {problems.length > 0 && (
        <section class="said stop">
          <h2>The job file cannot be read as it is</h2>
          <ul>
            {problems.map((p) => (
              <ProblemLine key={p.input} problem={p} />
            ))}
          </ul>
        </section>
      )}
      <Decisions />
      <section>
        <h2>Parts</h2>
        <ul class="cards">
          {list.map((_, i) => (
            <PartCard key={i} index={i} last={list.length - 1} />
          ))}
          <li class="card add">
            <a href="#/add">Add a part</a>
          </li>
        </ul>
      </section>
      <Measurements />
      <Sheets />
      {list.length > 0 && <FindPaper />}
      {list.length > 0 && <JobFiles />}
    </div>
  );
};
