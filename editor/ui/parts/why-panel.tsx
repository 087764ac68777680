// Why a value came out as it did: one sentence first, then the reasons hung on a plumb line, opened level by
// level.
import { useEffect, useEffectEvent, useRef, useState } from "react";
import type { KeyboardEvent, RefObject } from "react";
import type { Span } from "../../../core/span.ts";
import type { TraceStep, TraceView } from "../../../core/view.ts";
import { DimensionLine } from "./dimension-line.tsx";
import { PickOne } from "./pick-one.tsx";
import type { Option } from "./pick-one.tsx";
import { WhyDetails, WhyRests } from "./why-line.tsx";
import { atFirst, close, open } from "./why-opened.ts";
import type { Opened } from "./why-opened.ts";
import { becauseIsSaid, whyGives, whySentence } from "./why-sentence.ts";
import { useWords } from "../words/words.ts";
import "./why-panel.css";

export type Depth = TraceView["depth"];

export interface WhyPanelProps {
  readonly trace: TraceView;
  readonly depth: Depth;
  readonly onDepth: (depth: Depth) => void;
  /** Goes to the rule in the book; without it the lines offer no way there, as on the technician's screen. */
  readonly onGo?: (id: string, at: Span) => void;
  /** Told which rule a line stands for while it is pointed at or has the focus; undefined when none is. */
  readonly onHover?: (id: string | undefined, at?: Span) => void;
  /** Row id of a rule pointed at elsewhere: its lines light up. */
  readonly lit?: string;
  /** What the word that came out means. */
  readonly means?: string;
  /** Drawn where the two depths are picked, by a screen that has its own. */
  readonly picker?: React.ReactNode;
  /** `sentence`: no outline. Anything drawn instead of the facts and the outline, where it is neither. */
  readonly instead?: "sentence" | { readonly drawn: React.ReactNode };
}

const depths = ["deciding", "full"] as const;

export function WhyPanel(props: WhyPanelProps) {
  const { trace, onHover, instead } = props;
  const say = useWords();
  const panel = useRef<HTMLElement>(null);
  const opened = useOpened(trace);
  // When the panel goes, nothing is pointed at any more.
  const leave = useEffectEvent(() => onHover?.(undefined));
  useEffect(() => () => leave(), []);
  const [first] = trace.steps;
  if (first === undefined) return null;
  return (
    <section
      className="why"
      ref={panel}
      aria-label={say("why.of", { name: trace.of })}
      onMouseLeave={() => onHover?.(undefined)}
    >
      <WhyTop {...props} first={first} />
      {typeof instead === "object" ? (
        instead.drawn
      ) : (
        <>
          <div
            className={`why-first${first.id === props.lit ? " is-lit" : ""}`}
            onMouseEnter={() => onHover?.(first.id, first.at)}
            onFocus={() => onHover?.(first.id, first.at)}
          >
            <WhyDetails step={first} onGo={props.onGo} becauseSaid={becauseIsSaid(first)} textSaid />
          </div>
          {instead === undefined && <Outline {...props} {...opened} panel={panel} />}
        </>
      )}
      {instead === undefined && first.rests.length > 0 && (
        <svg className="why-bob" viewBox="0 0 16 30" aria-hidden="true" focusable="false">
          <path d="M8 0v6M4 6h8v4c0 3 1 4 1 6L8 29 3 16c0-2 1-3 1-6z" />
        </svg>
      )}
    </section>
  );
}

interface OpenLines {
  readonly opened: Opened;
  readonly setOpened: (change: (now: Opened) => Opened) => void;
}

/**
 * Which lines are open. For another value, or at the other depth, the places mean other steps: then only the
 * first line stays open.
 */
function useOpened(trace: TraceView): OpenLines {
  const [opened, setOpened] = useState<Opened>(atFirst);
  const asked = `${trace.of} ${trace.depth}`;
  const [openedFor, setOpenedFor] = useState(asked);
  if (asked !== openedFor) {
    setOpenedFor(asked);
    setOpened(atFirst());
  }
  return { opened, setOpened };
}

/** The value, the one sentence, and the choice of a depth. */
function WhyTop(props: WhyPanelProps & { readonly first: TraceStep }) {
  const { trace, first } = props;
  const say = useWords();
  const gives = whyGives(first, say);
  return (
    <header className="why-top">
      <p className="why-of">{trace.of}</p>
      {gives.text === undefined ? (
        <div className="why-value-line">
          <DimensionLine text={gives.short} />
        </div>
      ) : (
        <p className="why-text">{gives.text}</p>
      )}
      {props.means && <p className="why-means">{props.means}</p>}
      <p className="why-sentence">{whySentence(first, say)}</p>
      {props.picker ?? (
        <PickOne
          legend={say("why.how-deep")}
          options={depths.map((value): Option<Depth> => ({ value, says: say(`why.${value}`) }))}
          value={props.depth}
          onPick={props.onDepth}
        />
      )}
    </header>
  );
}

interface OutlineProps extends WhyPanelProps, OpenLines {
  readonly panel: RefObject<HTMLElement | null>;
}

function Outline({ trace, lit, onGo, onHover, opened, setOpened, panel }: OutlineProps) {
  return (
    <div className="why-plumb" onKeyDown={(event) => moveBetweenLines(event, panel.current)}>
      <WhyRests
        trace={trace}
        place={0}
        path="0"
        opened={opened}
        lit={lit}
        onOpen={(place, path) => setOpened((now) => open(now, place, path))}
        onClose={(path) => setOpened((now) => close(now, path))}
        onFind={(path) => lineAt(panel.current, path)?.focus()}
        onGo={onGo}
        onHover={onHover}
      />
    </div>
  );
}

const lineAt = (panel: HTMLElement | null, path: string): HTMLElement | null | undefined =>
  panel?.querySelector<HTMLElement>(`[data-line="${path}"]`);

/** Up and down go from line to line, right opens, left closes or goes to the line above it. */
function moveBetweenLines(event: KeyboardEvent, panel: HTMLElement | null) {
  const here = event.target instanceof HTMLElement ? event.target.closest<HTMLElement>("[data-line]") : null;
  if (here === null || panel === null || event.altKey || event.ctrlKey || event.metaKey) return;
  const lines = [...panel.querySelectorAll<HTMLElement>("[data-line]")];
  const at = lines.indexOf(here);
  const expanded = here.getAttribute("aria-expanded");
  const path = here.dataset["line"] ?? "";
  switch (event.key) {
    case "ArrowDown":
      lines[at + 1]?.focus();
      break;
    case "ArrowUp":
      lines[at - 1]?.focus();
      break;
    case "Home":
      lines[0]?.focus();
      break;
    case "End":
      lines[lines.length - 1]?.focus();
      break;
    case "ArrowRight":
      if (expanded === "false") here.click();
      else lines[at + 1]?.focus();
      break;
    case "ArrowLeft":
      if (expanded === "true") here.click();
      else lineAt(panel, path.slice(0, Math.max(0, path.lastIndexOf("/"))))?.focus();
      break;
    default:
      return;
  }
  event.preventDefault();
}
