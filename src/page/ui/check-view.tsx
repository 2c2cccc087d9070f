import { signal } from '@preact/signals';
import type { InspectAnswer } from '../core/questions.ts';
import { download } from './download.ts';
import { Said } from './said.tsx';
import { askLong } from './work.ts';
import { Svg } from './svg.tsx';

const thickness = signal('');
const file = signal<{ readonly name: string; readonly bytes: Uint8Array } | undefined>(undefined);
const found = signal<InspectAnswer | undefined>(undefined);

const look = async (): Promise<void> => {
  if (file.value === undefined) return;
  const answer = await askLong(
    'inspect',
    { ...file.value, thickness: thickness.value.trim() },
    {
      what: `Looking at ${file.value.name}`,
      left: 'Nothing is said of the file.',
      again: () => void look(),
    },
  );
  if (answer !== undefined) found.value = answer;
};

const take = async (given: File | undefined): Promise<void> => {
  if (given === undefined) return;
  // What was found of another file would be taken for what there is in this one.
  found.value = undefined;
  file.value = { name: given.name, bytes: new Uint8Array(await given.arrayBuffer()) };
  await look();
};

/** Any DXF, looked at before it is cut. */
export const CheckView = () => (
  <div
    onDragOver={(e) => e.preventDefault()}
    onDrop={(e) => {
      e.preventDefault();
      void take(e.dataTransfer?.files[0]);
    }}
  >
    <h1>Check a DXF</h1>
    <p>Drop a file here or choose one. Nothing leaves this computer.</p>
    <div class="row">
      <label>
        DXF file
        <input
          type="file"
          accept=".dxf"
          onChange={(e) => void take(e.currentTarget.files?.[0] ?? undefined)}
        />
      </label>
      <label>
        Thickness, mm
        <input
          value={thickness.value}
          onInput={(e) => {
            thickness.value = e.currentTarget.value;
          }}
          onBlur={() => void look()}
        />
      </label>
    </div>
    {file.value !== undefined && found.value !== undefined && (
      <>
        <h2>{file.value.name}</h2>
        {found.value.picture !== '' && (
          <Svg
            picture={found.value.picture}
            label={`${file.value.name} with marks where something was found`}
          />
        )}
        <Said
          findings={found.value.findings}
          problems={found.value.problems}
          onMend={() => undefined}
        />
        {found.value.files.map(({ name, contents }) => (
          <button type="button" key={name} class="main" onClick={() => download(name, contents)}>
            Download {name}
          </button>
        ))}
      </>
    )}
  </div>
);
