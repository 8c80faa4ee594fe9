/** The seed to repeat a run with, from the environment; fast-check makes and prints one of its own where there is none. */
export function seed(): { readonly seed?: number } {
  const given = Number(process.env.QUARREL_SEED ?? 'none');
  return Number.isInteger(given) ? { seed: given } : {};
}
