import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import type { MakeOptions } from '../../src/use/make/make-parts.ts';
import { type Packed, type PackOptions, packOf, type PackPart } from '../../src/use/pack/pack.ts';
import { FAMILIES } from '../../templates/index.ts';
import { tempFolder } from './command.ts';
import { madeOnce } from './made-once.ts';

/** An example of a family, made for packing. */
export const madeOf = async (
  family: string,
  inputs: Readonly<Record<string, unknown>> = {},
  options: Partial<MakeOptions> = {},
): Promise<readonly MadePart[]> => {
  const template = (await FAMILIES.get(family)?.())?.default;
  const [example] = template?.examples ?? [];
  if (template === undefined || example === undefined) throw new Error(`no family ${family}`);
  const made = madeOnce(
    template,
    { ...example.inputs, ...inputs },
    { cutOnly: false, dxfVersion: 'r2000', ...options },
  );
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.parts;
};

export const OPTIONS: PackOptions = {
  job: 'vineyard cart',
  shop: DEFAULT_SHOP,
  handover: DEFAULT_SHOP.handover,
  dxfVersion: 'r2000',
};

export const packedOf = (
  parts: readonly MadePart[],
  fold: PackPart['fold'],
  more: Partial<PackOptions> = {},
): Promise<Packed> =>
  packOf(
    parts.map((made) => ({ made, fold })),
    { ...OPTIONS, ...more },
  );

/** Prints as JSON what Python's own zip and CSV readers find in an archive. */
const PYTHON = `
import sys, json, zipfile, csv, io, hashlib
z = zipfile.ZipFile(sys.argv[1])
bad = z.testzip()
rows = list(csv.DictReader(io.StringIO(z.read('parts.csv').decode('utf-8'), newline=''), strict=True))
print(json.dumps({'bad': bad, 'rows': rows, 'names': z.namelist(), 'stored': z.infolist()[0].compress_type == 0, 'dates': sorted(set(str(i.date_time) for i in z.infolist())),
  'digests': {n: hashlib.sha256(z.read(n)).hexdigest() for n in z.namelist()}, 'manifest': json.loads(z.read('manifest.json')), 'texts': {n: z.read(n).decode('utf-8') for n in z.namelist() if n.endswith('.dxf')}}))
`;

export const hasPython = spawnSync('python3', ['-c', 'import zipfile, csv']).status === 0;

export interface ReadZip {
  readonly bad: string | null;
  readonly rows: readonly Readonly<Record<string, string>>[];
  readonly names: readonly string[];
  readonly stored: boolean;
  readonly dates: readonly string[];
  readonly digests: Readonly<Record<string, string>>;
  readonly manifest: {
    readonly mark: string;
    readonly job: string;
    readonly files: readonly {
      readonly file: string;
      readonly sha256: string;
      readonly parts: readonly {
        readonly name: string;
        readonly hand: string;
        readonly quantity: number;
        readonly revision: string | null;
      }[];
    }[];
  };
  readonly texts: Readonly<Record<string, string>>;
}

/** An archive as Python reads it. */
export const readZip = (bytes: Uint8Array): ReadZip => {
  const file = join(tempFolder(), 'packed.zip');
  writeFileSync(file, bytes);
  const run = spawnSync('python3', ['-c', PYTHON, file], { encoding: 'utf8', maxBuffer: 1 << 27 });
  if (run.status !== 0) throw new Error(run.stderr);
  return JSON.parse(run.stdout) as ReadZip;
};
