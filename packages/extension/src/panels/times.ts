import type { Times } from '@quarrel/pictures';
import type { Words } from './words.js';

/** `1 min 30 s`. */
export function duration(seconds: number): string {
  const whole = Math.round(seconds * 1000) / 1000;
  const [h, min, s] = [
    Math.floor(whole / 3600),
    Math.floor((whole % 3600) / 60),
    Math.round((whole % 60) * 1000) / 1000,
  ];
  const parts = [h > 0 ? `${h} h` : '', min > 0 ? `${min} min` : '', s > 0 ? `${s} s` : ''].filter(
    (part) => part !== '',
  );
  return parts.length === 0 ? '0 s' : parts.join(' ');
}

/** `1 min to 2 min`. */
export function durations({ least, most }: Times, words: Words): string {
  if (most === undefined) return words.atLeast(duration(least));
  return least === most ? duration(least) : words.range(duration(least), duration(most));
}

/** As on a stopwatch: `4:05`, or `1:04:05` from an hour on. */
export function stopwatch(seconds: number): string {
  const whole = Math.round(seconds);
  const two = (value: number): string => String(value).padStart(2, '0');
  const [h, min, s] = [Math.floor(whole / 3600), Math.floor((whole % 3600) / 60), whole % 60];
  return h > 0 ? `${h}:${two(min)}:${two(s)}` : `${min}:${two(s)}`;
}

/** `3:00 – 4:30`, where there is no room for words. */
export function windowOf({ least, most }: Times): string {
  if (most === undefined) return `${stopwatch(least)} –`;
  return least === most ? stopwatch(least) : `${stopwatch(least)} – ${stopwatch(most)}`;
}

/** `starts between 3 min and 4 min 30 s`. */
export function startWords({ least, most }: Times, words: Words): string {
  if (most === undefined) return words.starts(words.from(duration(least)));
  return words.starts(least === most ? words.exactly(duration(least)) : words.between(duration(least), duration(most)));
}

/** The same text, with durations that stay on one line. */
export function unbroken(text: string): string {
  return text.replace(/(?<=\d) (?=(?:h|min|s)\b)|(?<=\b(?:h|min)) (?=\d)/g, '\u00a0');
}
