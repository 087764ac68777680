// One inch drawn large, its sixteenths to be tapped with a glove: the ticks are as long as on a rule, halves longest.
import { readNumber, sixteenthText } from "./typed-number.ts";

export function InchTaps(props: { readonly number: string; readonly onNumber: (number: string) => void }) {
  const typed = readNumber(props.number);
  const value = "says" in typed ? 0 : Math.abs(typed.value);
  const ones = Math.floor(value + 1e-9);
  const part = Math.round((value - ones) * 16);
  const exact = !("says" in typed) && Math.abs((value - ones) * 16 - part) < 1e-6;
  return (
    <div className="inch" role="group" aria-label="Sixteenths of an inch">
      {Array.from({ length: 16 }, (_, sixteenths) => {
        const text = sixteenthText(sixteenths);
        const number = text === "" ? String(ones) : ones === 0 ? text : `${ones} ${text}`;
        return (
          <button
            key={sixteenths} type="button" className={`inch-tap by-${bottomOf(text)}`}
            aria-pressed={exact && sixteenths === part} aria-label={`${number} inch`} onClick={() => props.onNumber(number)}
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
  return <><sup>{top}</sup>⁄<sub>{bottom}</sub></>;
}

const bottomOf = (text: string): string => text.split("/")[1] ?? "1";
