import type { Vec3 } from '../geometry/vec3.ts';
import { FLOAT, INDEX_DATA, reachOf, UINT32, VERTEX_DATA } from './glb.ts';

/** Kinds of numbers that belong together in an accessor, by how many they are. */
const TYPES = { 1: 'SCALAR', 3: 'VEC3', 4: 'VEC4' } as const;

/**
 * The binary part of a glTF file while it grows: each list of numbers is a view and an accessor of
 * its own (Khronos Group, glTF 2.0 Specification, 3.6).
 */
export class GlbBuffer {
  readonly accessors: Record<string, unknown>[] = [];
  readonly bufferViews: Record<string, unknown>[] = [];
  private readonly words: { readonly isWhole: boolean; readonly value: number }[] = [];

  /** Places, with the box round them that the format asks for. */
  places(all: readonly Vec3[]): number {
    return this.add(all, 3, { target: VERTEX_DATA, about: reachOf(all) });
  }

  directions(all: readonly Vec3[]): number {
    return this.add(all, 3, { target: VERTEX_DATA, about: {} });
  }

  indices(all: readonly number[]): number {
    return this.add(
      all.map((i) => [i]),
      1,
      { target: INDEX_DATA, about: {}, isWhole: true },
    );
  }

  /** Times of key frames, rising, s. */
  times(all: readonly number[]): number {
    const kept = all.map(Math.fround);
    const about = { min: [Math.min(...kept)], max: [Math.max(...kept)] };
    return this.add(
      kept.map((t) => [t]),
      1,
      { about },
    );
  }

  /** Values of key frames. */
  values(all: readonly (readonly number[])[], size: 1 | 3 | 4): number {
    return this.add(all, size, { about: {} });
  }

  bytes(): Uint8Array<ArrayBuffer> {
    const bytes = new Uint8Array(4 * this.words.length);
    const view = new DataView(bytes.buffer);
    this.words.forEach(({ isWhole, value }, i) => {
      if (isWhole) view.setUint32(4 * i, value, true);
      else view.setFloat32(4 * i, value, true);
    });
    return bytes;
  }

  private add(
    all: readonly (readonly number[])[],
    size: 1 | 3 | 4,
    {
      target,
      about,
      isWhole = false,
    }: { readonly target?: number; readonly about: object; readonly isWhole?: boolean },
  ): number {
    const byteOffset = 4 * this.words.length;
    for (const one of all) for (const value of one) this.words.push({ isWhole, value });
    const view = this.bufferViews.push({
      buffer: 0,
      byteOffset,
      byteLength: 4 * this.words.length - byteOffset,
      ...(target !== undefined && { target }),
    });
    return (
      this.accessors.push({
        type: TYPES[size],
        componentType: isWhole ? UINT32 : FLOAT,
        count: all.length,
        bufferView: view - 1,
        ...about,
      }) - 1
    );
  }
}
