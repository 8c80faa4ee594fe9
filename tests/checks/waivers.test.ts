import { checkSheets } from '@quarrel/checks';
import { expect, test } from 'vitest';
import { read } from './reading.js';

const vocabulary = `
hazard uv "UV light" warning { wear "glasses that block UV" }
act cure { raises uv }
rule cure-long { hold of cure at least 1 min because "Thick resin cures slowly." }
`;

async function check(procedure: string) {
  return checkSheets(await read({ draft: `${vocabulary}\n${procedure}` }));
}

test('a step’s waiver covers that step and no other, and puts the reason on record', async () => {
  const { findings, waived } = await check(`procedure chip {
    step "Cure" { do cure; hold 30 s; caution uv; waive cure-long because "The pit is shallow." }
    step "Cure again" { do cure; hold 30 s }
  }`);
  expect(findings.map(({ rule, range }) => [rule, range.start.line])).toEqual([['cure-long', 7]]);
  expect(waived.map(({ finding, because }) => [finding.rule, finding.range.start.line, because])).toEqual([
    ['cure-long', 6, 'The pit is shallow.'],
  ]);
});

test('a procedure’s waiver covers all of it, and no other procedure', async () => {
  const { findings, waived, procedures } = await check(`procedure chip {
    waive cure-long because "This lamp is strong."
    step "Cure" { do cure; hold 30 s; caution uv }
    step "Cure again" { do cure; hold 30 s }
  }
  procedure pit {
    step "Cure" { do cure; hold 30 s; caution uv }
  }`);
  expect(waived.map(({ finding }) => finding.procedure)).toEqual(['chip', 'chip']);
  expect(findings.map(({ procedure }) => procedure)).toEqual(['pit']);
  expect(procedures.map((one) => [one.procedure.name, one.findings.length, one.waived.length])).toEqual([
    ['chip', 0, 2],
    ['pit', 1, 0],
  ]);
});

test('a waiver of a finding that no run is needed for counts as well', async () => {
  const { findings, waived } = await check(`procedure chip {
    step "Cure" { do cure; hold at least 2 min; caution uv; waive hold-without-limit because "The lamp ends by itself." }
  }`);
  expect(findings).toEqual([]);
  expect(waived.map(({ finding }) => finding.rule)).toEqual(['hold-without-limit']);
});

test('one finding for each step and rule, however often the step does the act', async () => {
  const { findings } = await check(`procedure chip {
    step "Cure" { do cure, cure; hold 30 s }
  }`);
  expect(findings.map(({ rule }) => rule)).toEqual(['cure-long', 'hazard-unannounced']);
});
