/**
 * A duration as ISO 8601-1:2019 writes it, with hours, minutes and seconds only: `90` is `PT1M30S`.
 * `seconds` is finite and at least 0; fractions are kept to the millisecond.
 */
export function isoDuration(seconds: number): string {
  const whole = Math.round(seconds * 1000) / 1000;
  const h = Math.floor(whole / 3600);
  const min = Math.floor((whole % 3600) / 60);
  const s = Math.round((whole % 60) * 1000) / 1000;
  const text = `${h > 0 ? `${h}H` : ''}${min > 0 ? `${min}M` : ''}${s > 0 ? `${s}S` : ''}`;
  return text === '' ? 'PT0S' : `PT${text}`;
}

/** A duration in the language's words: `90` is `1 min 30 s`. */
export function spokenDuration(seconds: number): string {
  const whole = Math.round(seconds * 1000) / 1000;
  const h = Math.floor(whole / 3600);
  const min = Math.floor((whole % 3600) / 60);
  const s = Math.round((whole % 60) * 1000) / 1000;
  const parts = [h > 0 ? `${h} h` : '', min > 0 ? `${min} min` : '', s > 0 ? `${s} s` : ''].filter(
    (part) => part !== '',
  );
  return parts.length === 0 ? '0 s' : parts.join(' ');
}
