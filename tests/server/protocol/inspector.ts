import type { Client } from './client.js';

/** Looks into a server from outside, by the inspector that Node has for every program: how much memory it has in use. */
export class Inspector {
  #socket: WebSocket | undefined;
  #asked = 0;

  /** The command line of a server, with its inspector open on this machine alone. */
  inspected([node = '', ...rest]: readonly string[]): readonly string[] {
    return [node, '--inspect=127.0.0.1:0', ...rest];
  }

  async attach(client: Client): Promise<void> {
    const told = /Debugger listening on (ws:\S+)/;
    await client.until(() => told.test(client.errors), 'the address of its inspector');
    const socket = new WebSocket(told.exec(client.errors)?.[1] ?? '');
    await new Promise((resolve, reject) => {
      socket.addEventListener('open', resolve);
      socket.addEventListener('error', reject);
    });
    this.#socket = socket;
  }

  /** Bytes in use after everything that can go is gone. */
  async heapInUse(): Promise<number> {
    // What the first collection lets go of may hold more.
    for (let round = 0; round < 3; round++) await this.#ask('HeapProfiler.collectGarbage');
    const { usedSize } = await this.#ask('Runtime.getHeapUsage');
    return usedSize;
  }

  close(): void {
    this.#socket?.close();
  }

  #ask(method: string): Promise<{ readonly usedSize: number }> {
    const socket = this.#socket;
    if (socket === undefined) throw new Error('nothing is attached');
    this.#asked += 1;
    const id = this.#asked;
    return new Promise((resolve) => {
      const listen = ({ data }: MessageEvent): void => {
        const answer = JSON.parse(String(data));
        if (answer.id !== id) return;
        socket.removeEventListener('message', listen);
        resolve(answer.result);
      };
      socket.addEventListener('message', listen);
      socket.send(JSON.stringify({ id, method }));
    });
  }
}
