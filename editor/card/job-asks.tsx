// The column of questions: the one in front, the answers given, and the questions that are not due.
import type { AskView, JobView } from "../../core/view.ts";
import { reasonWords } from "../ui/words/engine-words.ts";
import { type Say, useWords } from "../ui/words/words.ts";
import { toMeasureAgain } from "./card-facts.ts";
import { AnswerList, QuestionList } from "./ask-lists.tsx";
import type { JobScreenProps } from "./job-screen.tsx";
import { Question } from "./question.tsx";
import type { JobScreenState } from "./use-job-screen.ts";

interface JobAsksProps {
  readonly screen: JobScreenProps;
  readonly state: JobScreenState;
}

export function JobAsks({ screen, state }: JobAsksProps) {
  const { answers, job } = screen;
  const { groups, current, choose } = state;
  const say = useWords();
  const lists = [
    ["ask.after", groups.toAsk],
    ["ask.cautions", groups.cautions],
    ["ask.needless", groups.needless],
    ["ask.not-needed", groups.notNeeded],
  ] as const;
  const others = (asks: readonly AskView[]) => asks.filter((ask) => ask !== current);
  return (
    <div className="job-asks">
      {current && <CurrentQuestion key={current.name} ask={current} screen={screen} state={state} />}
      {current && <AnswerList asks={others(groups.answered)} answers={answers} job={job} onChoose={choose} />}
      {lists.map(([title, asks]) => (
        <QuestionList key={title} title={say(title)} asks={others(asks)} onChoose={choose} />
      ))}
    </div>
  );
}

function CurrentQuestion({ ask, screen, state }: JobAsksProps & { readonly ask: AskView }) {
  const { answers, job, units } = screen;
  const say = useWords();
  const found = job.findings.find((finding) => finding.ask === ask.name);
  return (
    <Question
      ask={ask}
      answer={answers[ask.name]}
      fault={found && reasonWords(found.cause, found.says, say)}
      again={againWords(ask, job, say)}
      units={units}
      draft={state.drafts[ask.name]}
      onDraft={(draft) => state.setDraft(ask.name, draft)}
      onAnswer={(text) => state.give(ask.name, text)}
      onLeave={ask === state.groups.toAsk[0] ? undefined : state.leave}
      headingRef={state.heading}
    />
  );
}

/** A measurement that a decision turns within says where. */
function againWords(ask: AskView, job: JobView, say: Say): string | undefined {
  if (!toMeasureAgain(job) || job.doubts?.measureAgain !== ask.name) return undefined;
  const at = job.doubts.turnsAt;
  return `${say("doubt.withheld")}. ${at === undefined ? "" : say("doubt.turns-at", at)}`.trim();
}
