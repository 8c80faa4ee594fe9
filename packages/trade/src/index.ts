import sheets from 'text:packages/trade/sheets/*.quarrel';

/** The sheets that ship: the name used after `quarrel:` in a `use` line, and the text. Source: `packages/trade/sheets`. */
export const shippedSheets: Readonly<Record<string, string>> = Object.fromEntries(
  Object.entries(sheets).map(([path, text]) => [path.replace(/^.*\//, '').replace(/\.quarrel$/, ''), text]),
);
