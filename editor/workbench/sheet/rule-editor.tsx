// A rule edited in place as text: Enter keeps it, Escape drops it, Tab takes the offered word. While it is
// wrong, what is wrong stands below it.
import { useEffect, useId, useLayoutEffect, useRef, useState } from "react";
import type { KeyboardEvent } from "react";
import type { Finding } from "../../../core/view.ts";
import { repairKey } from "../commands.ts";
import type { OffersAt, Tried } from "../../client/engine/messages.ts";
import { causesFirst } from "../findings/causes-first.ts";
import { FindingLine } from "../findings/finding-line.tsx";
import { fitOffers } from "./fit-offers.ts";

export interface RuleEditorProps {
  readonly label: string;
  readonly first: string;
  /**
   * Tries the draft without keeping it; the caret counts in the draft. Offers come back counted in the draft
   * too.
   */
  readonly onTry: (draft: string, caret: number) => Promise<Tried | undefined>;
  readonly onKeep: (draft: string) => void;
  readonly onDrop: () => void;
  /** Height in px of all that the editor draws, whenever it changes. */
  readonly onHeight: (height: number) => void;
  /** Said beside the buttons: what keeping it does. */
  readonly says?: string;
  /**
   * Findings that keep the draft from being kept: what is wrong stands below it, and the draft stays as it is
   * typed.
   */
  readonly refuses?: (finding: Finding) => boolean;
  /** Where the cursor begins; at the end if left out. */
  readonly caret?: number;
}

export function RuleEditor(props: RuleEditorProps) {
  const [draft, setDraft] = useState(props.first);
  const [caret, setCaret] = useState(props.caret ?? props.first.length);
  const [tried, setTried] = useState<{ findings: readonly Finding[]; offers?: OffersAt }>({ findings: [] });
  const [chosen, setChosen] = useState(0);
  const [quiet, setQuiet] = useState(true);
  const field = useRef<HTMLTextAreaElement>(null);
  const box = useRef<HTMLDivElement>(null);
  const list = useId();
  const newest = useRef(0);
  const { onTry, onHeight } = props;

  useLayoutEffect(() => {
    field.current?.focus();
    field.current?.setSelectionRange(props.caret ?? props.first.length, props.caret ?? props.first.length);
    // Only when it opens: later the cursor is the writer's.
  }, []);

  useEffect(() => {
    newest.current += 1;
    const mine = newest.current;
    const clock = setTimeout(() => {
      void onTry(draft, caret).then((answer) => {
        if (mine === newest.current && answer) {
          setTried(answer);
          setChosen(0);
        }
      });
    }, 90);
    return () => clearTimeout(clock);
    // The parent makes a new function at each drawing; the draft is what matters.
  }, [draft, caret]);

  useLayoutEffect(() => {
    const drawn = box.current;
    if (!drawn) return undefined;
    const watch = new ResizeObserver(() => onHeight(drawn.offsetHeight));
    watch.observe(drawn);
    return () => watch.disconnect();
  }, [onHeight]);

  useLayoutEffect(() => {
    const area = field.current;
    if (!area) return;
    area.style.height = "auto";
    area.style.height = `${area.scrollHeight + 2}px`;
  }, [draft]);

  const typed = tried.offers ? draft.slice(tried.offers.at.start, tried.offers.at.end) : "";
  const offers =
    quiet || !tried.offers || tried.offers.at.end > draft.length
      ? []
      : tried.offers.offers
          .filter((offer) => offer.label.startsWith(typed) && offer.label !== typed)
          .slice(0, 7);

  const take = (place: number): void => {
    const offer = offers[place];
    if (!offer || !tried.offers) return;
    const next = draft.slice(0, tried.offers.at.start) + offer.insert + draft.slice(tried.offers.at.end);
    const end = tried.offers.at.start + offer.insert.length;
    setDraft(next);
    setCaret(end);
    setQuiet(true);
    requestAnimationFrame(() => field.current?.setSelectionRange(end, end));
  };

  const keep = async (): Promise<void> => {
    const { refuses } = props;
    // What was tried last may be of an earlier draft: the one that is to be kept is tried itself.
    const answer = refuses === undefined ? undefined : await onTry(draft, caret);
    if (answer?.findings.some((finding) => refuses?.(finding))) {
      newest.current += 1;
      setTried(answer);
      setQuiet(true);
      return;
    }
    props.onKeep(draft);
  };

  const press = (event: KeyboardEvent): void => {
    event.stopPropagation();
    if (event.key === "Escape") {
      event.preventDefault();
      if (offers.length > 0) setQuiet(true);
      else props.onDrop();
    } else if (event.key === "Enter" && event.altKey) {
      event.preventDefault();
      repair(tried.findings.find((finding) => finding.repairs.length > 0));
    } else if (event.key === "Enter" && !event.shiftKey) {
      event.preventDefault();
      void keep();
    } else if (event.key === "Tab" && offers.length > 0 && !event.shiftKey) {
      event.preventDefault();
      take(chosen);
    } else if ((event.key === "ArrowDown" || event.key === "ArrowUp") && offers.length > 0) {
      event.preventDefault();
      setChosen((chosen + (event.key === "ArrowDown" ? 1 : offers.length - 1)) % offers.length);
    }
  };

  // A repair counts in the whole book; `onTry` gives findings counted in the draft, so it can be made here.
  const repair = (finding: Finding | undefined): void => {
    const edits = finding?.repairs[0]?.edits;
    if (!edits || edits.some((edit) => edit.at.start < 0 || edit.at.end > draft.length)) return;
    const next = [...edits]
      .sort((a, b) => b.at.start - a.at.start)
      .reduce((text, edit) => text.slice(0, edit.at.start) + edit.text + text.slice(edit.at.end), draft);
    setDraft(next);
    setCaret(next.length);
  };

  return (
    <div className="rule-editor" ref={box}>
      <div className="rule-editor-field">
        <textarea
          ref={field}
          rows={1}
          className="field rule"
          aria-label={props.label}
          value={draft}
          spellCheck={false}
          autoComplete="off"
          autoCapitalize="off"
          aria-autocomplete="list"
          aria-controls={offers.length > 0 ? list : undefined}
          aria-activedescendant={offers.length > 0 ? `${list}-${chosen}` : undefined}
          aria-invalid={tried.findings.some((finding) => finding.weight === "error")}
          onChange={(event) => {
            setDraft(event.target.value);
            setCaret(event.target.selectionStart);
            setQuiet(false);
          }}
          onSelect={(event) => setCaret(event.currentTarget.selectionStart)}
          onKeyDown={press}
        />
        {offers.length > 0 && (
          <ul className="offers" ref={fitOffers} id={list} role="listbox" aria-label="Words that fit here">
            {offers.map((offer, place) => (
              <li
                key={offer.label}
                id={`${list}-${place}`}
                role="option"
                aria-selected={place === chosen}
                onMouseDown={(event) => {
                  event.preventDefault();
                  take(place);
                }}
              >
                <b>{offer.label}</b>
                <span>{offer.detail}</span>
              </li>
            ))}
          </ul>
        )}
      </div>
      <div className="rule-editor-does">
        <button type="button" className="button main" onClick={() => void keep()}>
          Keep <kbd>Enter</kbd>
        </button>
        <button type="button" className="button" onClick={props.onDrop}>
          Drop <kbd>Esc</kbd>
        </button>
        {props.says !== undefined && <span className="rule-editor-hint">{props.says}</span>}
        {offers.length > 0 && (
          <span className="rule-editor-hint">
            <kbd>Tab</kbd> takes “{offers[chosen]?.label}”
          </span>
        )}
      </div>
      <div aria-live="polite">
        {causesFirst(tried.findings.filter((finding) => finding.weight !== "note"))
          .slice(0, 4)
          .map((finding, place) => (
            <FindingLine
              key={place}
              finding={finding}
              repairKey={finding.repairs.length > 0 ? repairKey : undefined}
              onRepair={
                finding.repairs[0]?.edits.every((edit) => edit.at.start >= 0 && edit.at.end <= draft.length)
                  ? repair
                  : undefined
              }
            />
          ))}
      </div>
    </div>
  );
}
