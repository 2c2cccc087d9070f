import { createRequire } from 'node:module';

/** The validator's report, as far as the tests read it. */
interface Report {
  readonly issues: {
    readonly numErrors: number;
    readonly numWarnings: number;
    readonly messages: readonly {
      readonly code: string;
      readonly message: string;
      readonly pointer?: string;
    }[];
  };
}

interface Validator {
  readonly validateBytes: (
    bytes: Uint8Array,
    options: { readonly writeTimestamp: boolean },
  ) => Promise<Report>;
}

/** Khronos' own validator of glTF files; it comes without types. */
export const validateGltf = (bytes: Uint8Array): Promise<Report> => {
  const validator = createRequire(import.meta.url)('gltf-validator') as Validator;
  return validator.validateBytes(bytes, { writeTimestamp: false });
};
