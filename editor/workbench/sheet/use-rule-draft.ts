// The state of a rule that is being written: its text, what is wrong with it, and the words that fit.
import { useEffect, useRef, useState } from "react";
import type { RefObject } from "react";
import type { Finding } from "../../../core/view.ts";
import type { OffersAt, Tried } from "../../client/engine/messages.ts";
import { useEvent } from "../use-event.ts";
import type { RuleEditorProps } from "./rule-editor.tsx";
import { fittingOffers, repaired, withOffer } from "./rule-draft.ts";

/** The draft is tried when typing has paused for so long, in milliseconds. */
const tryAfter = 90;

export interface RuleDraft {
  readonly draft: string;
  readonly findings: readonly Finding[];
  readonly offers: OffersAt["offers"];
  /** Index of the offer that Tab takes. */
  readonly chosen: number;
  readonly type: (draft: string, caret: number) => void;
  readonly moveCaret: (caret: number) => void;
  readonly choose: (index: number) => void;
  readonly hideOffers: () => void;
  readonly take: (index: number) => void;
  readonly repair: (finding: Finding | undefined) => void;
  /** Keeps the draft, unless a finding refuses it. */
  readonly keep: () => Promise<void>;
}

export function useRuleDraft(
  props: RuleEditorProps,
  field: RefObject<HTMLTextAreaElement | null>,
): RuleDraft {
  const [draft, setDraft] = useState(props.first);
  const [caret, setCaret] = useState(props.caret ?? props.first.length);
  const [chosen, setChosen] = useState(0);
  const [quiet, setQuiet] = useState(true);
  const { tried, setTried } = useTried(draft, caret, props.onTry, () => setChosen(0));
  const offers = quiet ? [] : fittingOffers(draft, tried.offers);
  return {
    draft,
    findings: tried.findings,
    offers,
    chosen,
    type: (next, at) => {
      setDraft(next);
      setCaret(at);
      setQuiet(false);
    },
    moveCaret: setCaret,
    choose: setChosen,
    hideOffers: () => setQuiet(true),
    take: (index) => {
      const offer = offers[index];
      if (!offer || !tried.offers) return;
      const next = withOffer(draft, tried.offers.at, offer.insert);
      setDraft(next.draft);
      setCaret(next.caret);
      setQuiet(true);
      requestAnimationFrame(() => field.current?.setSelectionRange(next.caret, next.caret));
    },
    repair: (finding) => {
      const next = repaired(draft, finding);
      if (next === undefined) return;
      setDraft(next);
      setCaret(next.length);
    },
    keep: async () => {
      const { refuses } = props;
      // What was tried last may be of an earlier draft: the one that is to be kept is tried itself.
      const answer = refuses === undefined ? undefined : await props.onTry(draft, caret);
      if (answer?.findings.some((finding) => refuses?.(finding))) {
        setTried(answer);
        setQuiet(true);
      } else props.onKeep(draft);
    },
  };
}

/** What the engine says of the draft, once typing pauses; an answer for an older draft is passed over. */
function useTried(
  draft: string,
  caret: number,
  onTry: RuleEditorProps["onTry"],
  onAnswer: () => void,
): { readonly tried: Tried; readonly setTried: (tried: Tried) => void } {
  const [tried, show] = useState<Tried>({ findings: [] });
  const newest = useRef(0);
  const attempt = useEvent(onTry);
  const answered = useEvent(onAnswer);
  useEffect(() => {
    newest.current += 1;
    const mine = newest.current;
    const clock = setTimeout(() => {
      void attempt(draft, caret).then((answer) => {
        if (mine !== newest.current || !answer) return;
        show(answer);
        answered();
      });
    }, tryAfter);
    return () => clearTimeout(clock);
  }, [draft, caret, attempt, answered]);
  const setTried = (answer: Tried): void => {
    newest.current += 1;
    show(answer);
  };
  return { tried, setTried };
}
