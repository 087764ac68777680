// The switch between the book's own units, metric and US, for everything shown on a screen.
import type { UnitSystem } from "../../../core/view.ts";
import { useWords } from "../words/words.ts";
import { PickOne } from "./pick-one.tsx";
import type { Option } from "./pick-one.tsx";

const systems = ["book", "metric", "us"] as const;

export function UnitSwitch(props: {
  readonly units: UnitSystem;
  readonly onUnits: (units: UnitSystem) => void;
  readonly legendShown?: boolean;
}) {
  const say = useWords();
  const options = systems.map(
    (value): Option<UnitSystem> => ({ value, says: say(`settings.units.${value}`) }),
  );
  return (
    <PickOne
      legend={say("settings.units")}
      legendShown={props.legendShown}
      options={options}
      value={props.units}
      onPick={props.onUnits}
    />
  );
}
