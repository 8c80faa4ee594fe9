/** Files of text, by path relative to the repository; see `.scripts/text-modules.mjs`. */
declare module 'text:*' {
  const texts: Readonly<Record<string, string>>;
  export default texts;
}
