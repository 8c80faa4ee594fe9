import type { Files } from './files/files.js';

/** 0 fine; 1 findings, unformatted sheets or the like; 2 wrong use, unreadable input or a fault of ours. */
export type ExitCode = 0 | 1 | 2;

/** Where text goes. */
export interface Output {
  write(text: string): void;
  /** Whether a person looks at it on a terminal that shows colours and wants them. */
  readonly colours: boolean;
}

/** Everything the command knows of the world around it. */
export interface Io {
  /** The folder that relative paths start from, absolute. */
  readonly cwd: string;
  readonly stdout: Output;
  readonly stderr: Output;
  readonly files: Files;
  /** Whether a fault of ours is shown with the place in the code where it happened. */
  readonly debug: boolean;
  /** Starts the language server on standard input and output; it ends the process when its client goes. */
  serve(): Promise<void>;
}

/** Why the command cannot do what it was asked for. */
export interface Refusal {
  readonly kind: 'refusal';
  /** One sentence: the fact. */
  readonly message: string;
  /** What to do about it. */
  readonly advice?: string;
}

export function refusal(message: string, advice?: string): Refusal {
  return { kind: 'refusal', message, ...(advice === undefined ? {} : { advice }) };
}

/** Says why not, on stderr, and gives the exit code for it. */
export function refuse(io: Io, { message, advice }: Refusal): ExitCode {
  io.stderr.write(`${message}\n${advice === undefined ? '' : `${advice}\n`}`);
  return 2;
}
