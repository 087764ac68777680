// One inch drawn large, its sixteenths (or thirty-seconds) to be tapped with a glove: the ticks are as long
// as on a rule, halves longest.
import { useWords } from "../ui/words/words.ts";
import { fractionText, readNumber } from "./typed-number.ts";

/** Into how many parts an inch is drawn. */
export type InchParts = 16 | 32;

/** Thirty-seconds where the number typed is one, else sixteenths. */
export function partsFor(number: string): InchParts {
  const typed = readNumber(number);
  if ("says" in typed) return 16;
  const parts = Math.abs(typed.value) * 16;
  return Math.abs(parts - Math.round(parts)) > 1e-6 && Math.abs(parts * 2 - Math.round(parts * 2)) < 1e-6
    ? 32
    : 16;
}

export function InchTaps(props: {
  readonly number: string;
  readonly parts: InchParts;
  readonly onNumber: (number: string) => void;
}) {
  const { parts } = props;
  const say = useWords();
  const typed = readNumber(props.number);
  const value = "says" in typed ? 0 : Math.abs(typed.value);
  const ones = Math.floor(value + 1e-9);
  const part = Math.round((value - ones) * parts);
  const exact = !("says" in typed) && Math.abs((value - ones) * parts - part) < 1e-6;
  return (
    <div
      className={`inch is-${parts}`}
      role="group"
      aria-label={say(parts === 16 ? "ask.sixteenths" : "ask.thirty-seconds")}
    >
      {Array.from({ length: parts }, (_, at) => at).map((at) => {
        const text = fractionText(at, parts);
        const number = text === "" ? String(ones) : ones === 0 ? text : `${ones} ${text}`;
        return (
          <button
            key={at}
            type="button"
            className={`inch-tap by-${bottomOf(text)}`}
            aria-pressed={exact && at === part}
            aria-label={`${number} inch`}
            onClick={() => props.onNumber(number)}
          >
            <i aria-hidden="true" />
            <span>{text === "" ? ones : <Fraction text={text} />}</span>
          </button>
        );
      })}
    </div>
  );
}

function Fraction({ text }: { readonly text: string }) {
  const [top, bottom] = text.split("/");
  return (
    <>
      <sup>{top}</sup>⁄<sub>{bottom}</sub>
    </>
  );
}

const bottomOf = (text: string): string => text.split("/")[1] ?? "1";
