import type { Procedure, Step, Waiver } from '@quarrel/model';
import type { Finding, WaivedFinding } from './finding.js';
import { hasReason } from './rules/flow/reason-missing.js';

/** A finding of a procedure, with the number of the step it stands at. */
export interface Filed {
  readonly finding: Finding;
  readonly step: number | undefined;
}

export interface Settled {
  readonly findings: readonly Finding[];
  readonly waived: readonly WaivedFinding[];
  /** Waivers that count and that nothing met. */
  readonly stale: readonly Waiver[];
}

/**
 * Sets apart what a procedure takes on purpose. A step's waiver covers what stands at that step, the procedure's own covers
 * all of it; the nearer one is put on record.
 */
export function settle(filed: readonly Filed[], procedure: Procedure, steps: readonly Step[]): Settled {
  const findings: Finding[] = [];
  const waived: WaivedFinding[] = [];
  const used = new Set<Waiver>();
  for (const { finding, step } of filed) {
    const near = step === undefined ? [] : (steps[step]?.waivers ?? []);
    const waiver = [...near, ...procedure.waivers].filter(hasReason).find(({ rule }) => rule === finding.rule);
    if (waiver === undefined) {
      findings.push(finding);
      continue;
    }
    used.add(waiver);
    waived.push({ finding, because: waiver.because });
  }
  const all = [...procedure.waivers, ...steps.flatMap((step) => step.waivers)];
  return { findings, waived, stale: all.filter((waiver) => hasReason(waiver) && !used.has(waiver)) };
}
