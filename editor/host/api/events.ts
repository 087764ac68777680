// What happens, told to every open page as it happens. Each event has the number of its line in the log, so a
// page that comes back after it was away names the last it has seen and gets what it missed, in order and
// once.
import type { Context } from "hono";
import { type SSEStreamingApi, streamSSE } from "hono/streaming";
import { type HostEvent, bookName } from "../../../core/schemas/host.ts";
import { linesAfter } from "../database/log.ts";
import type { LogLine } from "../database/follow.ts";
import { type Api, type HostParts, add, createRoute, refusals, z } from "./routes.ts";

/**
 * Milliseconds between two signs of life, and between two looks at whether the session still is: less than
 * the minute after which servers in between close a silent line.
 */
const ownBeat = 20_000;
/** Missed events up to this many are told one by one. */
const mostMissed = 1000;

interface Told {
  readonly id?: number;
  readonly event: HostEvent;
}

export function eventRoutes(app: Api, { shelf: database, presence, who, beat = ownBeat }: HostParts): void {
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
  add(
    app,
    who,
    createRoute({
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
    }),
    ((context: Context) => {
      const { draft, device, after } = query.parse(context.req.query());
      const header = context.req.header("last-event-id");
      const seen = header !== undefined && /^\d{1,15}$/.test(header) ? Number(header) : after;
      const person = context.get("person") as { name: string };
      return streamSSE(context, async (stream) => {
        const waiting: Told[] = [];
        let wake = (): void => undefined;
        const put = (told: Told): void => {
          waiting.push(told);
          wake();
        };
        const stops = [
          database.onLog((what) => {
            if (what.is === "restored") put({ event: { is: "anew" } });
            else {
              const event = eventOf(what.line);
              if (event !== undefined) put({ id: what.line.seq, event });
            }
          }),
          presence.on((book, people) => put({ event: { is: "open", book, people } })),
        ];
        if (draft !== undefined)
          stops.push(presence.enter(draft, { who: person.name, device: device ?? "" }));
        let over = false;
        const end = (): void => {
          over = true;
          wake();
        };
        stream.onAbort(end);
        stops.push(onClose(end));
        try {
          await stream.write("retry: 2000\n: here\n\n");
          let last = seen === undefined ? -1 : await tellMissed(stream, seen);
          let looked = Date.now();
          while (!over) {
            if (waiting.length > mostMissed) break;
            // A session that has ended hears no more, however much there is to tell.
            if (Date.now() - looked >= beat) {
              if ((await who(context)) === undefined) break;
              looked = Date.now();
            }
            const told = waiting.shift();
            if (told === undefined) {
              const silent = await new Promise<boolean>((resolve) => {
                const clock = setTimeout(() => resolve(true), beat);
                wake = () => {
                  clearTimeout(clock);
                  resolve(false);
                };
                if (over || waiting.length > 0) wake();
              });
              if (silent) await stream.write(": still here\n\n");
              continue;
            }
            if (told.id !== undefined && told.id <= last) continue;
            if (told.id !== undefined) last = told.id;
            if (told.event.is === "anew") last = -1;
            await stream.writeSSE({
              ...(told.id === undefined ? {} : { id: String(told.id) }),
              data: JSON.stringify(told.event),
            });
          }
        } finally {
          for (const stop of stops) stop();
        }
      });
    }) as never,
  );

  async function tellMissed(stream: SSEStreamingApi, seen: number): Promise<number> {
    const lines = await linesAfter(database.db, seen - 1, mostMissed + 2);
    // A log that does not hold the line seen last is another one.
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
  const told = JSON.parse(body) as {
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
      return { is: "edition", book: told.book, number: told.number, print: told.print, who };
    case "draft":
      return {
        is: "draft",
        book: told.book,
        version: told.version,
        who,
        ...(told.device === undefined ? {} : { device: told.device }),
      };
    case "entries":
      return { is: "jobs", jobs: told.jobs };
    case "worked again":
      return { is: "jobs", jobs: [told.job] };
    case "restored":
      return { is: "anew" };
    // Texts and photographs belong to jobs that are told by themselves.
    default:
      return undefined;
  }
}
