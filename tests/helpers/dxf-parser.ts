import imported from 'dxf-parser';

/** The class, which its types place one level deeper than Node finds it in. */
export const DxfParser = imported as unknown as typeof imported.DxfParser;
