// Laying another job alongside: a copy of a worked example, or a blank one.
import { useState } from "react";
import type { WorkedView } from "../../../core/view.ts";

export function AddJob(props: {
  readonly worked: readonly WorkedView[];
  readonly onBlank: () => void;
  readonly onWorked: (example: WorkedView) => void;
}) {
  const [wish, setWish] = useState("");
  const found = props.worked.filter((one) =>
    `${one.name} ${one.title}`.toLowerCase().includes(wish.trim().toLowerCase()),
  );
  return (
    <div className="add-job">
      <button type="button" className="button main" onClick={props.onBlank}>
        A blank job
      </button>
      <h3 className="label">Or a copy of a worked example</h3>
      {props.worked.length > 6 && (
        <input
          className="field"
          type="search"
          aria-label="Find a worked example"
          placeholder="Find an example"
          value={wish}
          onChange={(event) => setWish(event.target.value)}
        />
      )}
      <ul className="pick-list">
        {found.map((one) => (
          <li key={one.name}>
            <button type="button" onClick={() => props.onWorked(one)}>
              <b>{one.name}</b>
              <span>{one.title}</span>
              <small className={one.passes ? "" : "is-failing"}>
                {one.passes ? "comes out as expected" : "does not come out as expected"}
              </small>
            </button>
          </li>
        ))}
      </ul>
      {props.worked.length === 0 && <p className="why-side-title">This book has no worked examples yet.</p>}
    </div>
  );
}
