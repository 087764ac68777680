// Which lines of a trace are opened. A step that several others rest on is opened in one place at a time, so
// the outline can never grow beyond the number of steps however often they are shared.
import type { TraceView } from "../../../core/view.ts";

/** The way from the first step down to a line, as places in the trace: `0/3/7`. */
export type LinePath = string;

/** Step → the line at which it stands open. */
export type Opened = ReadonlyMap<number, LinePath>;

/** Only the value asked about is open. */
export const atFirst = (): Opened => new Map([[0, "0"]]);

export const below = (path: LinePath, place: number): LinePath => `${path}/${place}`;

/**
 * `open`: this line is the open one. `elsewhere`: the step is open at another line, named by `home`, or would
 * contain itself.
 */
export type LineState =
  | { readonly is: "open" }
  | { readonly is: "closed" }
  | { readonly is: "elsewhere"; readonly home: LinePath };

export function lineState(opened: Opened, place: number, path: LinePath): LineState {
  const home = opened.get(place);
  if (home === path) return { is: "open" };
  if (home === undefined) return { is: "closed" };
  return { is: "elsewhere", home };
}

export function open(opened: Opened, place: number, path: LinePath): Opened {
  return opened.has(place) ? opened : new Map(opened).set(place, path);
}

/** Closes a line and all that stood open below it. */
export function close(opened: Opened, path: LinePath): Opened {
  return new Map([...opened].filter(([, home]) => home !== path && !home.startsWith(`${path}/`)));
}

/** What a step rests on, each once: a rule that names a value twice still rests on it once. */
export const restsOnce = (trace: TraceView, place: number): readonly number[] => [
  ...new Set(trace.steps[place]?.rests),
];

/** How many lines are drawn; at most the number of steps plus all `rests` of the opened ones. */
export function drawnLines(trace: TraceView, opened: Opened): number {
  const from = (place: number, path: LinePath): number => {
    const step = trace.steps[place];
    if (step === undefined) return 0;
    if (lineState(opened, place, path).is !== "open") return 1;
    return restsOnce(trace, place).reduce((lines, rest) => lines + from(rest, below(path, rest)), 1);
  };
  return from(0, "0");
}
