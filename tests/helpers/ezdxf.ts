import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/**
 * An arc as ezdxf makes it from a bulge: always counter-clockwise from `start` to `end`, radians.
 */
export interface ReadArc {
  readonly centre: readonly [number, number];
  readonly radius: number;
  readonly start: number;
  readonly end: number;
}

export interface ReadVertex {
  readonly x: number;
  readonly y: number;
  readonly bulge: number;
  readonly arc: ReadArc | null;
}

export type ReadEntity = { readonly layer: string } & (
  | {
      readonly type: 'LWPOLYLINE';
      readonly closed: boolean;
      readonly vertices: readonly ReadVertex[];
    }
  | {
      readonly type: 'POLYLINE';
      readonly closed: boolean;
      readonly vertices: readonly ReadVertex[];
      readonly layersOfParts: readonly string[];
    }
  | { readonly type: 'CIRCLE'; readonly centre: readonly [number, number]; readonly radius: number }
  | {
      readonly type: 'LINE';
      readonly from: readonly [number, number];
      readonly to: readonly [number, number];
    }
  | {
      readonly type: 'TEXT';
      readonly at: readonly [number, number];
      readonly text: string;
      readonly height: number;
      readonly rotation: number;
    }
);

/** What ezdxf finds in a file. `errors` and `fixes` are its auditor's. */
export interface ReadDxf {
  readonly errors: readonly string[];
  readonly fixes: readonly string[];
  readonly version: string;
  readonly insUnits: number | null;
  readonly measurement: number | null;
  readonly extMin: readonly [number, number];
  readonly extMax: readonly [number, number];
  readonly view: { readonly centre: readonly [number, number]; readonly height: number };
  readonly layers: Readonly<
    Record<string, { colour: number; lineType: string; lineWeight: number | null }>
  >;
  readonly entities: readonly ReadEntity[];
}

const candidates = ['/usr/bin/python3', 'python3'];
/** Looked for once: to start Python takes a while. */
export const PYTHON = candidates.find(
  (command) => spawnSync(command, ['-c', 'import ezdxf']).status === 0,
);

export const ezdxfAvailable = PYTHON !== undefined;

/**
 * Reads the texts of many DXF files with ezdxf, the Python library (Debian package python3-ezdxf),
 * in one go.
 */
export const readWithEzdxf = (texts: readonly string[]): ReadDxf[] => {
  const folder = mkdtempSync(join(tmpdir(), 'dxf-'));
  try {
    const names = texts.map((text, i) => {
      const name = join(folder, `${i}.dxf`);
      writeFileSync(name, text);
      return name;
    });
    const script = fileURLToPath(new URL('read_dxf.py', import.meta.url));
    const run = spawnSync(PYTHON ?? 'python3', [script], {
      input: JSON.stringify(names),
      encoding: 'utf8',
      maxBuffer: 1 << 28,
    });
    if (run.status !== 0) throw new Error(`ezdxf could not read the files: ${run.stderr}`);
    return JSON.parse(run.stdout) as ReadDxf[];
  } finally {
    rmSync(folder, { recursive: true });
  }
};
