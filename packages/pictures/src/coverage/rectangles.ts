/** Cells from `left` and `top`. */
export interface Rectangle {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/**
 * Covers a grid (rows of keys) with rectangles of equal keys, without overlap: the largest first, of equal ones the first in reading
 * order. They come in reading order.
 */
export function rectanglesOf(grid: readonly (readonly string[])[]): readonly Rectangle[] {
  const free = grid.map((row) => row.map(() => true));
  const found: Rectangle[] = [];
  for (let next = largestIn(grid, free); next !== undefined; next = largestIn(grid, free)) {
    const { left, top, width, height } = next;
    for (const line of free.slice(top, top + height)) line.fill(false, left, left + width);
    found.push(next);
  }
  return found.sort((a, b) => a.top - b.top || a.left - b.left);
}

function largestIn(grid: readonly (readonly string[])[], free: readonly (readonly boolean[])[]): Rectangle | undefined {
  let largest: Rectangle | undefined;
  const areaOf = (one: Rectangle | undefined): number => (one === undefined ? 0 : one.width * one.height);
  for (const [top, row] of grid.entries()) {
    for (const [left, key] of row.entries()) {
      let width = row.length - left;
      for (let height = 1; top + height <= grid.length; height += 1) {
        width = Math.min(width, runOf(key, left, grid[top + height - 1], free[top + height - 1]));
        if (width === 0) break;
        const one = { left, top, width, height };
        if (areaOf(one) > areaOf(largest)) largest = one;
      }
    }
  }
  return largest;
}

/** How many free cells from `left` on have the key. */
function runOf(key: string, left: number, keys: readonly string[] = [], free: readonly boolean[] = []): number {
  let width = 0;
  while (free[left + width] === true && keys[left + width] === key) width += 1;
  return width;
}

/** Where a line of the grid differs from the one before: the first numbers of stretches of equal lines, 0 first. */
export function stretchesOf(lines: readonly (readonly string[])[]): readonly number[] {
  return lines.flatMap((line, index) => {
    const before = lines[index - 1];
    return before?.every((key, place) => key === line[place]) ? [] : [index];
  });
}
