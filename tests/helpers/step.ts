import init, { type OpenCascadeInstance } from 'replicad-opencascadejs';

/** A body read from a STEP file. */
export interface ReadBody {
  readonly solids: number;
  readonly faces: number;
  readonly isValid: boolean;
  readonly volume: number;
  readonly size: readonly [number, number, number];
}

let loading: Promise<OpenCascadeInstance> | undefined;

/** Reads a STEP file with the kernel's own reader, and has the result judged by its own checker. */
export const readStep = async (text: string): Promise<ReadBody> => {
  loading ??= init({ print: () => undefined, printErr: () => undefined });
  const k = await loading;
  k.FS.writeFile('read.step', text);
  const reader = new k.STEPControl_Reader();
  if (reader.ReadFile('read.step') !== k.IFSelect_ReturnStatus.IFSelect_RetDone)
    throw new Error('the file cannot be read');
  reader.TransferRoots(new k.Message_ProgressRange());
  const shape = reader.OneShape();
  const count = (
    kind: typeof k.TopAbs_ShapeEnum.TopAbs_SOLID | typeof k.TopAbs_ShapeEnum.TopAbs_FACE,
  ): number => {
    const walk = new k.TopExp_Explorer(shape, kind);
    let n = 0;
    for (; walk.More(); walk.Next()) n += 1;
    walk.delete();
    return n;
  };
  const sums = new k.GProp_GProps();
  k.BRepGProp.VolumeProperties(shape, sums, true, false, false);
  const box = new k.Bnd_Box();
  k.BRepBndLib.AddOptimal(shape, box, false, false);
  box.SetGap(0);
  const checker = new k.BRepCheck_Analyzer(shape, true);
  const body: ReadBody = {
    solids: count(k.TopAbs_ShapeEnum.TopAbs_SOLID),
    faces: count(k.TopAbs_ShapeEnum.TopAbs_FACE),
    isValid: checker.IsValid(),
    volume: sums.Mass(),
    size: [
      box.GetXMax() - box.GetXMin(),
      box.GetYMax() - box.GetYMin(),
      box.GetZMax() - box.GetZMin(),
    ],
  };
  for (const thing of [checker, box, sums, shape, reader]) thing.delete();
  k.FS.unlink('read.step');
  return body;
};
