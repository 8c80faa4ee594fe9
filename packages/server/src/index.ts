// A language server on any connection
export { startServer } from './start.js';
