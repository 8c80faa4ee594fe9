import type { StepPart, Times } from '@quarrel/pictures';
import type { TimeAxis } from './axis.js';

/**
 * A step on the clock: hands-on time, then its hold up to the least and on to the most, from the earliest start on; a line shows how
 * late all of it can be.
 */
export function Bars({ step, axis }: { readonly step: StepPart; readonly axis: TimeAxis }) {
  const { start, takes, hold, end } = step;
  const handsOn = takes?.most ?? takes?.least ?? 0;
  const least = hold?.least ?? 0;
  const holdFrom = start.least + handsOn;
  const latest = latestEnd(start, end);
  return (
    <span class="track" aria-hidden="true">
      <Stretch kind="late" from={start.least} to={latest ?? axis.end} axis={axis} />
      {handsOn > 0 && <Stretch kind="hands-on" from={start.least} to={holdFrom} axis={axis} />}
      {hold !== undefined && (
        <Stretch
          kind={hold.most === undefined ? 'most open' : 'most'}
          from={holdFrom}
          to={holdFrom + (hold.most ?? axis.end)}
          axis={axis}
        />
      )}
      {least > 0 && <Stretch kind="least" from={holdFrom} to={holdFrom + least} axis={axis} />}
      {handsOn === 0 && hold === undefined && <Stretch kind="moment" from={start.least} to={start.least} axis={axis} />}
    </span>
  );
}

function latestEnd(start: Times, end: Times | undefined): number | undefined {
  return end === undefined ? start.most : end.most;
}

interface StretchProps {
  readonly kind: string;
  readonly from: number;
  readonly to: number;
  readonly axis: TimeAxis;
}

function Stretch({ kind, from, to, axis }: StretchProps) {
  const left = (Math.min(from, axis.end) / axis.end) * 100;
  const width = (Math.max(0, Math.min(to, axis.end) - from) / axis.end) * 100;
  return <span class={`stretch ${kind}`} style={{ left: `${left}%`, width: `${width}%` }} />;
}
