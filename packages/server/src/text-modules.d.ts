// The pages of the rules, put in by the bundler and by the test runner.
declare module 'text:*' {
  const texts: Readonly<Record<string, string>>;
  export default texts;
}
