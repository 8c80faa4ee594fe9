import type { UnitShown } from '../picked.js';
import type { Need, PressShown, Scale, Stretch } from './holds.js';

/** Times that people say, in seconds. */
const said = [
  0.001, 0.01, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 30, 60, 120, 300, 600, 1200, 1800, 3600, 7200, 18_000, 43_200, 86_400,
  604_800, 2_592_000,
];

const mostMarks = 8;

/** A logarithmic scale on which all needs and holds have room. */
export function timeScale(needs: readonly Need[], presses: readonly PressShown[]): Scale {
  const times = [
    ...needs.flatMap(({ parts }) => parts.flatMap(({ points }) => points.map(({ seconds }) => seconds))),
    ...presses.flatMap(({ hold }) => (hold === undefined ? [] : [hold.least, hold.most ?? hold.least])),
  ].filter((seconds) => seconds > 0);
  const [shortest, longest] = [Math.min(...times), Math.max(...times)];
  const low = said.findLast((one) => one < shortest) ?? shortest / 2;
  const high = said.find((one) => one > longest) ?? longest * 2;
  return { low, high, marks: thinned(said.filter((one) => low <= one && one <= high)) };
}

/** A scale of temperatures, with marks where they are round in the unit shown. */
export function temperatureScale(drawn: Stretch, unit: UnitShown): Scale {
  return { ...drawn, marks: roundTemperatures(drawn, unit) };
}

function roundTemperatures({ low, high }: Stretch, { factor, offset }: UnitShown): readonly number[] {
  const [from, to] = [low / factor - offset, high / factor - offset];
  const step = [1, 2, 5, 10, 20, 50, 100].find((one) => (to - from) / one <= mostMarks) ?? 200;
  // What arithmetic adds to an end must not cost it its mark.
  const first = Math.ceil((from - 1e-6) / step);
  const last = Math.floor((to + 1e-6) / step);
  return Array.from(
    { length: Math.max(0, last - first + 1) },
    (_, index) => ((first + index) * step + offset) * factor,
  );
}

function thinned(marks: readonly number[]): readonly number[] {
  const every = Math.ceil(marks.length / (mostMarks + 1));
  return marks.filter((_, index) => index % every === 0);
}
