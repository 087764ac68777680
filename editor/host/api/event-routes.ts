// Server-sent events: what happens, for every open page as it happens. Each event has the number of its line
// in the log, so that a page that reconnects names the last one it saw and gets what it missed, in order and
// once.
import type { Context } from "hono";
import { type SSEStreamingApi, streamSSE } from "hono/streaming";
import { type HostEvent, bookName } from "../../../core/schemas/host.ts";
import type { Database } from "../database/database.ts";
import { linesAfter } from "../database/log-chain.ts";
import type { LogLine } from "../database/follow.ts";
import { type Api, type HostParts, add, createRoute, refusals, z } from "./routes.ts";

/**
 * Milliseconds between two signs of life, and between two checks of the session: less than the minute after
 * which servers in between close a silent connection.
 */
const ownBeat = 20_000;
/** Missed events up to this many are sent one by one. */
const mostMissed = 1000;

interface Message {
  /** Number of the line in the log; absent where the event is in no line. */
  readonly id?: number;
  readonly event: HostEvent;
}

/** The page that listens. */
interface Listener {
  readonly name: string;
  readonly draft?: string | undefined;
  readonly device?: string | undefined;
  /** Number of the last line that it saw. */
  readonly seen?: number | undefined;
}

const query = z.object({
  draft: bookName.optional().openapi({ description: "A draft that this page has open: others are told" }),
  device: z.string().max(200).optional(),
  after: z.coerce
    .number()
    .int()
    .min(0)
    .optional()
    .openapi({ description: "The last event that was seen; the header Last-Event-ID says the same" }),
});

const listen = createRoute({
  method: "get",
  path: "/api/events",
  summary: "Events as they happen (server-sent events; the data of each is a HostEvent)",
  request: { query },
  responses: {
    200: {
      content: { "text/event-stream": { schema: z.string() } },
      description: "Goes on until it is closed",
    },
    ...refusals,
  },
});

export function eventRoutes(app: Api, parts: HostParts): void {
  const handler = (context: Context) => {
    const { draft, device, after } = query.parse(context.req.query());
    const header = context.req.header("last-event-id");
    const seen = header !== undefined && /^\d{1,15}$/.test(header) ? Number(header) : after;
    const { name } = context.get("person") as { name: string };
    return streamSSE(context, (stream) => sendEvents(stream, context, parts, { name, draft, device, seen }));
  };
  add(app, parts.who, listen, handler as never);
}

async function sendEvents(
  stream: SSEStreamingApi,
  context: Context,
  { database, presence, who, beat = ownBeat }: HostParts,
  { name, draft, device, seen }: Listener,
): Promise<void> {
  const queue = messageQueue();
  const stops = [
    database.onLog((what) => {
      if (what.is === "restored") queue.put({ event: { is: "anew" } });
      else {
        const event = eventOf(what.line);
        if (event !== undefined) queue.put({ id: what.line.seq, event });
      }
    }),
    presence.on((book, people) => queue.put({ event: { is: "open", book, people } })),
  ];
  if (draft !== undefined) stops.push(presence.enter(draft, { who: name, device: device ?? "" }));
  stream.onAbort(queue.end);
  stops.push(onClose(queue.end));
  try {
    await stream.write("retry: 2000\n: here\n\n");
    let last = seen === undefined ? -1 : await sendMissed(database, stream, seen);
    let checked = Date.now();
    while (!queue.over() && queue.length() <= mostMissed) {
      // A session that has ended gets no more, however much there is to send.
      if (Date.now() - checked >= beat) {
        if ((await who(context)) === undefined) break;
        checked = Date.now();
      }
      const message = queue.take();
      if (message === undefined) {
        if (await queue.silent(beat)) await stream.write(": still here\n\n");
      } else if (message.id === undefined || message.id > last) {
        if (message.id !== undefined) last = message.id;
        if (message.event.is === "anew") last = -1;
        const id = message.id === undefined ? {} : { id: String(message.id) };
        await stream.writeSSE({ ...id, data: JSON.stringify(message.event) });
      }
    }
  } finally {
    for (const stop of stops) stop();
  }
}

/** Messages that wait to be sent to one page. */
function messageQueue() {
  const waiting: Message[] = [];
  let wake = (): void => undefined;
  let over = false;
  return {
    put: (message: Message): void => {
      waiting.push(message);
      wake();
    },
    take: (): Message | undefined => waiting.shift(),
    length: (): number => waiting.length,
    end: (): void => {
      over = true;
      wake();
    },
    over: (): boolean => over,
    /** Waits for a message or the end; true if neither came in so many milliseconds. */
    silent: (time: number): Promise<boolean> =>
      new Promise((resolve) => {
        const clock = setTimeout(() => resolve(true), time);
        wake = () => {
          clearTimeout(clock);
          resolve(false);
        };
        if (over || waiting.length > 0) wake();
      }),
  };
}

/** Sends what a page missed since line `seen`; comes back with the last line sent, or -1 to start over. */
async function sendMissed(database: Database, stream: SSEStreamingApi, seen: number): Promise<number> {
  const lines = await linesAfter(database.db, seen - 1, mostMissed + 2);
  // A log without the line that was seen last is another log.
  if ((seen > 0 && lines[0]?.seq !== seen) || lines.length > mostMissed + 1) {
    await stream.writeSSE({ data: JSON.stringify({ is: "anew" } satisfies HostEvent) });
    return -1;
  }
  let last = seen;
  for (const line of lines) {
    if (line.seq <= seen) continue;
    last = line.seq;
    const event = eventOf(line);
    if (event !== undefined) await stream.writeSSE({ id: String(line.seq), data: JSON.stringify(event) });
  }
  return last;
}

const open = new Set<() => void>();

function onClose(end: () => void): () => void {
  open.add(end);
  return () => {
    open.delete(end);
  };
}
/** Ends all events, so that the host can close. */
export const endEvents = (): void => {
  for (const end of [...open]) end();
};

function eventOf({ what, who, body }: LogLine): HostEvent | undefined {
  const line = JSON.parse(body) as {
    book: string;
    number: number;
    print: string;
    version: number;
    device?: string;
    jobs: string[];
    job: string;
  };
  switch (what) {
    case "edition":
      return { is: "edition", book: line.book, number: line.number, print: line.print, who };
    case "draft":
      return {
        is: "draft",
        book: line.book,
        version: line.version,
        who,
        ...(line.device === undefined ? {} : { device: line.device }),
      };
    case "entries":
      return { is: "jobs", jobs: line.jobs };
    case "worked again":
      return { is: "jobs", jobs: [line.job] };
    case "restored":
      return { is: "anew" };
    // Texts and photographs belong to jobs, which have events of their own.
    default:
      return undefined;
  }
}
