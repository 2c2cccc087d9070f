/**
 * How many cases a random test tries: its own number, or what FUZZ_RUNS asks for (`npm run fuzz`).
 */
export const fuzzRuns = (usual: number): number => {
  const asked = Number(process.env['FUZZ_RUNS']);
  return Number.isInteger(asked) && asked > 0 ? asked : usual;
};
