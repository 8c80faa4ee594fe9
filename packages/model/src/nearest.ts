/**
 * The names that are nearest to `name`, nearest first, at most five: those that need few changes of single letters (insert,
 * delete, replace, swap neighbours) for their length, and those of which one contains the other.
 */
export function nearest(name: string, names: Iterable<string>): readonly string[] {
  const sought = name.toLowerCase();
  const limit = Math.max(1, Math.floor((sought.length + 1) / 3));
  const found: { readonly name: string; readonly distance: number }[] = [];
  for (const candidate of new Set(names)) {
    const lower = candidate.toLowerCase();
    const distance = changesBetween(sought, lower, limit);
    if (distance <= limit) found.push({ name: candidate, distance });
    else if (sharesWord(sought, lower)) found.push({ name: candidate, distance: limit + 1 });
  }
  return found
    .sort((a, b) => a.distance - b.distance || (a.name < b.name ? -1 : 1))
    .slice(0, 5)
    .map((one) => one.name);
}

/** `draw` for `draw-vacuum`: one name is made of whole words of the other. */
function sharesWord(a: string, b: string): boolean {
  const [short, long] = a.length < b.length ? [a, b] : [b, a];
  return short.length > 2 && `-${long}-`.includes(`-${short}-`);
}

/** The edit distance (optimal string alignment) of two words, or any number above `limit` where it is above it. */
function changesBetween(a: string, b: string, limit = Number.POSITIVE_INFINITY): number {
  if (Math.abs(a.length - b.length) > limit) return limit + 1;
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const replaced = (last[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      let best = Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, replaced);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        best = Math.min(best, (beforeLast[j - 2] ?? 0) + 1);
      }
      row.push(best);
    }
    if (Math.min(...row) > limit) return limit + 1;
    beforeLast = last;
    last = row;
  }
  return last[b.length] ?? limit + 1;
}
