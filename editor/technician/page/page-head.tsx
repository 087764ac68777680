// The head of the technician's page: the other language one press away, and the settings of this device under
// a fold.
import { useState } from "react";
import type { UnitSystem } from "../../../core/view.ts";
import { PickOne } from "../../ui/parts/pick-one.tsx";
import { UnitSwitch } from "../../ui/parts/unit-switch.tsx";
import { changePageSettings, usePageSettings } from "../../ui/words/page-settings.ts";
import type { Hand } from "../../ui/words/page-settings.ts";
import { languages, useWords } from "../../ui/words/words.ts";

export function PageHead(props: {
  readonly units?: UnitSystem;
  readonly onUnits?: (units: UnitSystem) => void;
  readonly onBook?: () => void;
}) {
  const say = useWords();
  const { language, hand } = usePageSettings();
  const [open, setOpen] = useState(false);
  const other = language === "en" ? "es" : "en";
  const hands: readonly Hand[] = ["left", "right"];
  return (
    <div className="page-head no-print">
      <p className="page-head-line">
        {props.onBook && (
          <button type="button" className="tap is-soft" onClick={props.onBook}>
            {say("book.change")}
          </button>
        )}
        <button
          type="button"
          className="tap is-soft"
          lang={other}
          onClick={() => changePageSettings({ language: other })}
        >
          {languages[other]}
        </button>
        <button type="button" className="tap is-soft" aria-expanded={open} onClick={() => setOpen(!open)}>
          {say("page.settings")}
        </button>
      </p>
      {open && (
        <div className="page-settings">
          {props.units && props.onUnits && (
            <UnitSwitch units={props.units} onUnits={props.onUnits} legendShown />
          )}
          <PickOne
            legend={say("settings.hand")}
            legendShown
            value={hand}
            onPick={(to) => changePageSettings({ hand: to })}
            options={hands.map((value) => ({ value, says: say(`settings.hand.${value}`) }))}
          />
        </div>
      )}
    </div>
  );
}
