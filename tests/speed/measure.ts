/** The median time of some runs of `work`, in milliseconds, after one run that does not count. */
export async function median(runs: number, work: () => unknown): Promise<number> {
  await work();
  const times: number[] = [];
  for (let run = 0; run < runs; run++) {
    const start = performance.now();
    await work();
    times.push(performance.now() - start);
  }
  return middle(times);
}

/** The median of some times. */
export function middle(times: readonly number[]): number {
  return [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? Number.NaN;
}

/** A table in Markdown. */
export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n');
}

export function ms(time: number | undefined): string {
  return time === undefined ? 'not tried' : `${time < 10 ? time.toFixed(1) : Math.round(time)} ms`;
}

export function ratio(time: number | undefined, to: number): string {
  return time === undefined ? '–' : `${(time / to).toFixed(time / to < 10 ? 1 : 0)}×`;
}
