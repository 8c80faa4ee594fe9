import type { FindingShown, SourceRange } from '@quarrel/pictures';
import type { Words } from './words.js';

/** The most serious first. */
export const severities = ['error', 'warning', 'info'] as const;

/** A sign for each severity, so that colour is not all that tells them apart. */
const signs = { error: '×', warning: '!', info: 'i' } as const;

export function Sign({ severity }: { readonly severity: FindingShown['severity'] }) {
  return (
    <span class={`sign ${severity}`} aria-hidden="true">
      {signs[severity]}
    </span>
  );
}

interface FindingsProps {
  readonly findings: readonly FindingShown[];
  readonly words: Words;
  readonly reveal: (range: SourceRange) => void;
}

export function Findings({ findings, words, reveal }: FindingsProps) {
  return (
    <ul class="findings">
      {findings.map((finding) => (
        <li key={`${finding.rule} ${finding.range.start.line} ${finding.range.start.column} ${finding.message}`}>
          <button type="button" class="plain" onClick={() => reveal(finding.range)}>
            <Sign severity={finding.severity} />
            <span>
              <b>{words.severity[finding.severity]}:</b> {finding.message} <span class="rule">{finding.rule}</span>
            </span>
          </button>
        </li>
      ))}
    </ul>
  );
}
