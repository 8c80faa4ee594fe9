/** Said on every output. */
export const notice: readonly string[] = [
  'The law of the place and a qualified person decide what may be repaired and driven; this checklist does not.',
  'The instructions that come with each resin, lamp and tool, and the safety data sheets, go before what is written here.',
];

/** Said on every output of a procedure with faults. */
export const draftWarning = 'DRAFT: this procedure has faults that are not settled. Do not work from it.';
