// The pieces that the record of what is proved is made of: its fields, its numbered parts, and a settled
// line.
import type { ReactNode } from "react";
import { Stamp } from "./stamp.tsx";

export function Field(props: { readonly label: string; readonly children: ReactNode }) {
  return (
    <div>
      <dt className="label">{props.label}</dt>
      <dd>{props.children}</dd>
    </div>
  );
}

export function Part(props: {
  readonly number: number;
  readonly heading: string;
  readonly children: ReactNode;
}) {
  return (
    <section className="record-part" aria-labelledby={`record-${props.number}`}>
      <h3 className="batten" id={`record-${props.number}`}>
        <span className="record-number">{props.number}</span>
        {props.heading}
      </h3>
      {props.children}
    </section>
  );
}

export const Settled = (props: { readonly children: ReactNode }) => (
  <div className="goal is-proved">
    <span className="goal-verdict">
      <Stamp verdict="proved" />
    </span>
    <p className="goal-says">{props.children}</p>
  </div>
);

export const NothingProved = () => <p className="record-note">Nothing is proved yet.</p>;
