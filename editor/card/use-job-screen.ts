// What a person does on the job screen before anything is answered: which question is taken up, what is
// typed, which value is asked about; and where the reader is led after a press.
import { useEffect, useRef, useState } from "react";
import type { RefObject } from "react";
import type { AskView } from "../../core/view.ts";
import type { Draft } from "../client/storage/stored-work.ts";
import type { Drafts } from "./answer-drafts.ts";
import type { AskGroups } from "./job-order.ts";
import { groupAsks } from "./job-order.ts";
import type { JobScreenProps } from "./job-screen.tsx";

export interface JobScreenState {
  readonly groups: AskGroups;
  /** The question in front; undefined where nothing is left to ask, and on a locked job. */
  readonly current: AskView | undefined;
  readonly heading: RefObject<HTMLHeadingElement | null>;
  readonly cardHeading: RefObject<HTMLHeadingElement | null>;
  readonly drafts: Drafts;
  readonly setDraft: (ask: string, draft: Draft) => void;
  /** Takes up a question out of turn. */
  readonly choose: (ask: string) => void;
  /** Back to the question that is due. */
  readonly leave: () => void;
  /** Gives an answer; `undefined` takes it back. */
  readonly give: (ask: string, text: string | undefined) => void;
  /** The value that is asked about. */
  readonly why: string | undefined;
  readonly setWhy: (name: string | undefined) => void;
}

export function useJobScreen(props: JobScreenProps): JobScreenState {
  const { asks, answers, job, locked } = props;
  const [chosen, setChosen] = useState<string>();
  const [moves, setMoves] = useState(0);
  const [why, setWhy] = useState<string>();
  const [drafts, setDrafts] = useDrafts(props);
  const groups = groupAsks(asks, answers, job, props.proofs?.matters);
  const current = locked ? undefined : (asks.find((ask) => ask.name === chosen) ?? groups.toAsk[0]);
  const { heading, cardHeading } = useFocusAfter(moves, current?.name);
  const move = (to: string | undefined): void => {
    setChosen(to);
    setMoves((count) => count + 1);
  };
  const give = (ask: string, text: string | undefined): void => {
    const { [ask]: _given, ...kept } = drafts;
    setDrafts(kept);
    move(undefined);
    props.onAnswer(ask, text);
  };
  return {
    groups,
    current,
    heading,
    cardHeading,
    drafts,
    setDraft: (ask, draft) => setDrafts({ ...drafts, [ask]: draft }),
    choose: move,
    leave: () => move(undefined),
    give,
    why,
    setWhy,
  };
}

/** Kept by whoever keeps the job; without that they last as long as the screen. */
function useDrafts({ drafts, onDrafts }: JobScreenProps): readonly [Drafts, (next: Drafts) => void] {
  const [own, setOwn] = useState<Drafts>({});
  const set = (next: Drafts): void => {
    setOwn(next);
    onDrafts?.(next);
  };
  return [drafts ?? own, set];
}

/**
 * After a press the reader is taken along: to the next question, or to the card once nothing is left to ask.
 */
function useFocusAfter(
  moves: number,
  current: string | undefined,
): Pick<JobScreenState, "heading" | "cardHeading"> {
  const heading = useRef<HTMLHeadingElement>(null);
  const cardHeading = useRef<HTMLHeadingElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another question in front moves the focus, too
  useEffect(() => {
    if (moves === 0) return;
    (heading.current ?? cardHeading.current)?.focus({ preventScroll: false });
    // On a phone what is pressed last would lie over the field: the question is brought up until all of it is
    // in sight.
    const question = heading.current?.closest(".question");
    if (question && question.getBoundingClientRect().bottom > innerHeight)
      question.scrollIntoView({ block: "start" });
  }, [moves, current]);
  return { heading, cardHeading };
}
