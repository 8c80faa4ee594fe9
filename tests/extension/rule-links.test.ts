import { expect, test } from 'vitest';
import { withPageLinks } from '../../packages/extension/src/client/rule-links.js';

test('a link to the page of a rule opens it', () => {
  expect(withPageLinks('Needs (`a`): [why](quarrel:/rules/cure-after-fill.md), [b](quarrel:/rules/b.md)')).toBe(
    'Needs (`a`): [why](command:quarrel.showRule?%5B%22cure-after-fill%22%5D), [b](command:quarrel.showRule?%5B%22b%22%5D)',
  );
});

test.each([
  '[a](file:///x.quarrel#L1,2) [b](https://example.org) [c](command:other)',
  '[d](quarrel:/laminated-glass.quarrel) quarrel:/rules/a.md',
  '[e](quarrel:/rules/../x.md)',
])('anything else stays as it is: %s', (markdown) => {
  expect(withPageLinks(markdown)).toBe(markdown);
});
