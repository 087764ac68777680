// What a worked example expects, and what the book gives.
import type { WorkedView } from "../../../core/view.ts";

export function WorkedLines(props: {
  readonly worked: WorkedView | undefined;
  readonly onLay: (worked: WorkedView) => void;
}) {
  const { worked } = props;
  if (!worked) return null;
  return (
    <>
      <table className="worked-table">
        <thead>
          <tr>
            <th scope="col">Expects</th>
            <th scope="col">Wanted</th>
            <th scope="col">Comes out</th>
          </tr>
        </thead>
        <tbody>
          {worked.expects.map((one) => (
            <tr key={one.what} className={one.holds ? "" : "is-failing"}>
              <th scope="row">{one.what}</th>
              <td>{one.wanted}</td>
              <td>{one.got}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <button type="button" className="button" onClick={() => props.onLay(worked)}>
        Lay it alongside
      </button>
    </>
  );
}
