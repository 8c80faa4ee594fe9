/** Cells from `left` and `top`. */
export interface Rectangle {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/**
 * Covers a grid (rows of keys) with rectangles of equal keys, without overlap: each begins at the first cell that is still free, row
 * by row, and grows to the right, then down.
 */
export function rectanglesOf(grid: readonly (readonly string[])[]): readonly Rectangle[] {
  const taken = grid.map((row) => row.map(() => false));
  const isFree = (row: number, column: number, key: string): boolean =>
    grid[row]?.[column] === key && taken[row]?.[column] === false;
  const found: Rectangle[] = [];
  for (const [top, row] of grid.entries()) {
    for (const [left, key] of row.entries()) {
      if (!isFree(top, left, key)) continue;
      let width = 1;
      while (isFree(top, left + width, key)) width += 1;
      const columns = Array.from({ length: width }, (_, index) => left + index);
      let height = 1;
      while (columns.every((column) => isFree(top + height, column, key))) height += 1;
      for (const line of taken.slice(top, top + height)) for (const column of columns) line[column] = true;
      found.push({ left, top, width, height });
    }
  }
  return found;
}

/** Where a line of the grid differs from the one before: the first numbers of stretches of equal lines, 0 first. */
export function stretchesOf(lines: readonly (readonly string[])[]): readonly number[] {
  return lines.flatMap((line, index) => {
    const before = lines[index - 1];
    return before?.every((key, place) => key === line[place]) ? [] : [index];
  });
}
