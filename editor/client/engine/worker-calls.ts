// Calls into a worker by name: the arguments and the answer are plain data, and each answer comes back under
// the number of its call. Smaller than a library for the same, of which each page and each worker would carry
// a copy.

interface Call {
  readonly id: number;
  readonly name: string;
  readonly given: readonly unknown[];
}
type CallReply =
  | { readonly id: number; readonly answer: unknown }
  | { readonly id: number; readonly failed: { readonly name: string; readonly message: string } };

/** Calls as they look from outside the worker. */
export type Async<Calls> = {
  readonly [Name in keyof Calls]: Calls[Name] extends (...given: infer Given) => infer Answer
    ? (...given: Given) => Promise<Answer>
    : never;
};
type AnyCall = (...given: readonly unknown[]) => unknown;

/** The calls of this worker. What a call throws is thrown at the caller, with its name and message. */
export function callsOf<Calls extends object>(worker: Worker): Async<Calls> {
  const waiting = new Map<number, (reply: CallReply) => void>();
  let last = 0;
  worker.addEventListener("message", ({ data }: MessageEvent<CallReply>) => {
    waiting.get(data.id)?.(data);
    waiting.delete(data.id);
  });
  return callsBy<Calls>(
    (name, given) =>
      new Promise((resolve, reject) => {
        last += 1;
        waiting.set(last, (reply) => {
          if ("failed" in reply) reject(Object.assign(new Error(reply.failed.message), reply.failed));
          else resolve(reply.answer);
        });
        worker.postMessage({ id: last, name, given } satisfies Call);
      }),
  );
}

/** Calls of any name, each made by `call`. */
export const callsBy = <Calls extends object>(
  call: (name: string, given: readonly unknown[]) => unknown,
): Async<Calls> =>
  new Proxy({} as Async<Calls>, {
    get:
      (_, name) =>
      (...given: readonly unknown[]) =>
        call(String(name), given),
  });

/** In the worker: answers calls, each argument taken through `read` first. */
export function answerCalls(calls: object, read: (given: unknown) => unknown): void {
  const byName = new Map<string, AnyCall>(Object.entries(calls));
  addEventListener("message", async ({ data: { id, name, given } }: MessageEvent<Call>) => {
    try {
      postMessage({ id, answer: await byName.get(name)!(...given.map(read)) } satisfies CallReply);
    } catch (cause) {
      const { name: sort, message } = cause instanceof Error ? cause : new Error(String(cause));
      postMessage({ id, failed: { name: sort, message } } satisfies CallReply);
    }
  });
}
