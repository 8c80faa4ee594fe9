import type { Files } from './files/files.js';
import { nodeFiles } from './files/node.js';
import type { Output } from './io.js';
import { run } from './run.js';

/** Holds interrupts back while `work` runs. They are lost then, and the little that is left to do is done. */
const undisturbed: Files['undisturbed'] = (work) => {
  const hold = (): void => undefined;
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, hold);
  try {
    return work();
  } finally {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.off(signal, hold);
  }
};

let outputFailed = false;

function output(stream: NodeJS.WriteStream): Output {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    // Whoever read us has read enough.
    if (error.code === 'EPIPE') process.exit();
    outputFailed = true;
    process.exitCode = 2;
    if (stream !== process.stderr)
      process.stderr.write(`The output cannot be written: ${error.code ?? error.message}.\n`);
  });
  const { NO_COLOR, TERM } = process.env;
  return {
    write: (text) => {
      if (text !== '') stream.write(text);
    },
    colours: stream.isTTY === true && (NO_COLOR === undefined || NO_COLOR === '') && TERM !== 'dumb',
  };
}

const code = await run(process.argv.slice(2), {
  cwd: process.cwd(),
  stdout: output(process.stdout),
  stderr: output(process.stderr),
  files: nodeFiles(undisturbed),
  debug: (process.env.QUARREL_DEBUG ?? '') !== '',
  // Only then: whoever checks a sheet does not wait for a server to be read.
  serve: async () => void (await import('@quarrel/server/node')),
});
process.exitCode = outputFailed ? 2 : code;
