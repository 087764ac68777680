// A rule edited in place as text: Enter keeps it, Escape drops it, Tab takes the offered word. While it is
// wrong, the findings are listed below it.
import { useId, useLayoutEffect, useRef, useState } from "react";
import type { KeyboardEvent, RefObject } from "react";
import type { Finding } from "../../../core/view.ts";
import type { Tried } from "../../client/engine/messages.ts";
import { repairKey } from "../commands.ts";
import { causesFirst } from "../findings/causes-first.ts";
import { FindingLine } from "../findings/finding-line.tsx";
import { withKeys } from "../unique-keys.ts";
import { OfferList, offerId } from "./offer-list.tsx";
import { repairsWithin } from "./rule-draft.ts";
import type { RuleDraft } from "./use-rule-draft.ts";
import { useRuleDraft } from "./use-rule-draft.ts";

export interface RuleEditorProps {
  readonly label: string;
  readonly first: string;
  /** Tries the draft without keeping it. The caret and what comes back count in the draft. */
  readonly onTry: (draft: string, caret: number) => Promise<Tried | undefined>;
  readonly onKeep: (draft: string) => void;
  readonly onDrop: () => void;
  /** Height in px of all that the editor draws, whenever it changes. */
  readonly onHeight: (height: number) => void;
  /** Shown beside the buttons: what keeping it does. */
  readonly says?: string;
  /** Findings that refuse the draft: it stays open as it is typed. */
  readonly refuses?: (finding: Finding) => boolean;
  /** Where the cursor begins; at the end if left out. */
  readonly caret?: number;
}

/** Most findings listed below the field. */
const mostFindings = 4;

export function RuleEditor(props: RuleEditorProps) {
  const field = useRef<HTMLTextAreaElement>(null);
  const box = useRef<HTMLDivElement>(null);
  const list = useId();
  const rule = useRuleDraft(props, field);
  const { offers, chosen } = rule;
  useFirstCaret(field, props.caret ?? props.first.length);
  useHeightReport(box, props.onHeight);
  return (
    <div className="rule-editor" ref={box}>
      <div className="rule-editor-field">
        <RuleField
          rule={rule}
          field={field}
          label={props.label}
          list={list}
          onKeyDown={(event) => pressInRule(event, rule, props.onDrop)}
        />
        <OfferList
          id={list}
          label="Words that fit here"
          offers={offers.map((offer) => ({ word: offer.label, means: offer.detail }))}
          chosen={chosen}
          onTake={rule.take}
        />
      </div>
      <div className="rule-editor-does">
        <button type="button" className="button main" onClick={() => void rule.keep()}>
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
      <RuleFindings rule={rule} />
    </div>
  );
}

function RuleField(props: {
  readonly rule: RuleDraft;
  readonly field: RefObject<HTMLTextAreaElement | null>;
  readonly label: string;
  readonly list: string;
  readonly onKeyDown: (event: KeyboardEvent) => void;
}) {
  const { rule, field, list } = props;
  const offered = rule.offers.length > 0;
  useTextHeight(field, rule.draft);
  return (
    <textarea
      ref={field}
      rows={1}
      className="field rule"
      aria-label={props.label}
      value={rule.draft}
      spellCheck={false}
      autoComplete="off"
      autoCapitalize="off"
      aria-autocomplete="list"
      aria-controls={offered ? list : undefined}
      aria-activedescendant={offered ? offerId(list, rule.chosen) : undefined}
      aria-invalid={rule.findings.some((finding) => finding.weight === "error")}
      onChange={(event) => rule.type(event.target.value, event.target.selectionStart)}
      onSelect={(event) => rule.moveCaret(event.currentTarget.selectionStart)}
      onKeyDown={props.onKeyDown}
    />
  );
}

function RuleFindings({ rule }: { readonly rule: RuleDraft }) {
  const shown = causesFirst(rule.findings.filter((finding) => finding.weight !== "note"));
  return (
    <div aria-live="polite">
      {withKeys(shown.slice(0, mostFindings), (finding) => `${finding.code} ${finding.says}`).map(
        ({ key, item: finding }) => (
          <FindingLine
            key={key}
            finding={finding}
            repairKey={finding.repairs.length > 0 ? repairKey : undefined}
            onRepair={repairsWithin(finding, rule.draft) ? rule.repair : undefined}
          />
        ),
      )}
    </div>
  );
}

/** What the keys do in the field. No key goes on to the sheet. */
function pressInRule(event: KeyboardEvent, rule: RuleDraft, onDrop: () => void): void {
  const offered = rule.offers.length;
  event.stopPropagation();
  if (event.key === "Escape") {
    event.preventDefault();
    if (offered > 0) rule.hideOffers();
    else onDrop();
  } else if (event.key === "Enter" && event.altKey) {
    event.preventDefault();
    rule.repair(rule.findings.find((finding) => finding.repairs.length > 0));
  } else if (event.key === "Enter" && !event.shiftKey) {
    event.preventDefault();
    void rule.keep();
  } else if (event.key === "Tab" && offered > 0 && !event.shiftKey) {
    event.preventDefault();
    rule.take(rule.chosen);
  } else if ((event.key === "ArrowDown" || event.key === "ArrowUp") && offered > 0) {
    event.preventDefault();
    rule.choose((rule.chosen + (event.key === "ArrowDown" ? 1 : offered - 1)) % offered);
  }
}

/** Takes the focus when the editor opens; later the cursor is the writer's. */
function useFirstCaret(field: RefObject<HTMLTextAreaElement | null>, caret: number): void {
  const [first] = useState(caret);
  useLayoutEffect(() => {
    field.current?.focus();
    field.current?.setSelectionRange(first, first);
  }, [field, first]);
}

function useHeightReport(box: RefObject<HTMLElement | null>, onHeight: (height: number) => void): void {
  useLayoutEffect(() => {
    const drawn = box.current;
    if (!drawn) return undefined;
    const watch = new ResizeObserver(() => onHeight(drawn.offsetHeight));
    watch.observe(drawn);
    return () => watch.disconnect();
  }, [box, onHeight]);
}

/** Makes the field as high as its text. */
function useTextHeight(field: RefObject<HTMLTextAreaElement | null>, text: string): void {
  // biome-ignore lint/correctness/useExhaustiveDependencies: another text is measured again
  useLayoutEffect(() => {
    const area = field.current;
    if (!area) return;
    area.style.height = "auto";
    area.style.height = `${area.scrollHeight + 2}px`;
  }, [field, text]);
}
