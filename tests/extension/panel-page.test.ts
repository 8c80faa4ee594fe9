import { expect, test } from 'vitest';
import { pageOf } from '../../packages/extension/src/client/panel-page.js';

const page = (): string =>
  pageOf({
    view: 'coverage',
    title: 'A & B <"C">',
    language: 'es',
    source: 'https://ours.example',
    file: (name) => `https://ours.example/${name}`,
  });

const policyOf = (text: string): readonly string[] =>
  (/Content-Security-Policy" content="([^"]*)"/.exec(text)?.[1] ?? '').split('; ');

test('the page of a panel may run one script, use one style sheet, and reach nothing else', () => {
  const text = page();
  const nonce = /<script nonce="([^"]+)"/.exec(text)?.[1];
  expect(policyOf(text)).toEqual([
    "default-src 'none'",
    `script-src 'nonce-${nonce}'`,
    'style-src https://ours.example',
    'font-src https://ours.example',
  ]);
  expect(text.match(/<script/g)).toHaveLength(1);
  expect(text).toContain(`<script nonce="${nonce}" src="https://ours.example/panel.js"></script>`);
  expect(text).not.toMatch(/ (on\w+|style)=/);
});

test('no two pages have the same nonce', () => {
  expect(policyOf(page())).not.toEqual(policyOf(page()));
});

test('a page says which view it is, in which language, with its title as text', () => {
  const text = page();
  expect(text).toContain('<html lang="es">');
  expect(text).toContain('data-view="coverage"');
  expect(text).toContain('<title>A &#38; B &#60;&#34;C&#34;&#62;</title>');
});
