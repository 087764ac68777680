// The switch between the book's own units, metric and US, for everything shown on a screen.
import type { UnitSystem } from "../../../core/view.ts";
import { PickOne } from "./pick-one.tsx";
import type { Option } from "./pick-one.tsx";

const systems: readonly Option<UnitSystem>[] = [
  { value: "book", says: "As the book says" },
  { value: "metric", says: "Metric" },
  { value: "us", says: "US" },
];

export function UnitSwitch(props: { readonly units: UnitSystem; readonly onUnits: (units: UnitSystem) => void }) {
  return <PickOne legend="Units shown" options={systems} value={props.units} onPick={props.onUnits} />;
}
