/** `1 error`, `2 errors`. */
export function counted(count: number, thing: string): string {
  return `${count} ${thing}${count === 1 ? '' : 's'}`;
}

/** `a, b and c`. */
export function listed(parts: readonly string[], word: 'and' | 'or'): string {
  const last = parts.at(-1) ?? '';
  return parts.length < 2 ? last : `${parts.slice(0, -1).join(', ')} ${word} ${last}`;
}
