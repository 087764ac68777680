// Who did what at the shop's host, line after line; each line's hash rests on the one before it, so what was
// taken out or changed shows.
import { useEffect, useState } from "react";
import type { LogList, LogVerdict } from "../../../core/schemas/host.ts";
import type { Shop, ShopState } from "../store/shop.ts";
import { when } from "./edition-words.ts";

export function LogPart(props: { readonly shop: Shop; readonly state: ShopState }) {
  const { client } = props.shop;
  const [list, setList] = useState<LogList>();
  const [verdict, setVerdict] = useState<LogVerdict | "asked">();
  const [head, setHead] = useState("");
  const [trouble, setTrouble] = useState("");
  const fail = (cause: unknown): void =>
    setTrouble(cause instanceof Error ? cause.message : "The host does not answer.");
  // biome-ignore lint/correctness/useExhaustiveDependencies: loads again after each deed.
  useEffect(() => {
    let over = false;
    client.log({ limit: 100 }).then(
      (found) => {
        if (!over) setList(found);
      },
      (cause: unknown) => {
        if (!over) fail(cause);
      },
    );
    return () => {
      over = true;
    };
  }, [client, props.state.sealings, props.state.deliveries, props.state.draft?.version]);
  const more = (): void => {
    const before = list?.lines.at(-1)?.seq;
    if (before !== undefined)
      client
        .log({ limit: 100, before })
        .then((next) => setList({ lines: [...(list?.lines ?? []), ...next.lines], more: next.more }), fail);
  };
  const verify = (): void => {
    setVerdict("asked");
    client
      .verifyLog(/^[0-9a-f]{64}$/.test(head.trim()) ? head.trim() : undefined)
      .then(setVerdict, (cause: unknown) => {
        setVerdict(undefined);
        fail(cause);
      });
  };
  return (
    <div className="log-part">
      <p className="record-note">
        Nothing in this log is ever changed. Each line carries a print of itself and of the line before it;
        noting the newest elsewhere shows later that none was taken away.
      </p>
      <div className="log-find">
        <label className="log-head">
          <span className="label">A print of the newest line that was noted earlier (may stay empty)</span>
          <input
            className="field"
            value={head}
            maxLength={64}
            spellCheck={false}
            onChange={(event) => setHead(event.target.value)}
          />
        </label>
        <button type="button" className="button" disabled={verdict === "asked"} onClick={verify}>
          {verdict === "asked" ? "Verifying…" : "Verify the log"}
        </button>
      </div>
      {trouble !== "" && <p role="alert">{trouble}</p>}
      {verdict !== undefined && verdict !== "asked" && (
        <section role="status" className={`job-again is-${verdict.holds ? "same" : "other"}`}>
          <p>
            <b>
              {verdict.holds
                ? `The log is whole: ${verdict.lines} lines, and the shelf says the same.`
                : "The log does not hold."}
            </b>
          </p>
          {verdict.troubles.map((line) => (
            <p key={line}>{line}</p>
          ))}
          {verdict.head !== undefined && (
            <p>
              <span className="label">Newest print</span> <code className="sealed-print">{verdict.head}</code>
            </p>
          )}
        </section>
      )}
      {list === undefined ? (
        <p role="status">Asking the host…</p>
      ) : (
        <table className="log-table">
          <thead>
            <tr>
              <th scope="col">Line</th>
              <th scope="col">When</th>
              <th scope="col">Who</th>
              <th scope="col">What</th>
              <th scope="col">Print</th>
            </tr>
          </thead>
          <tbody>
            {list.lines.map((line) => (
              <tr key={line.seq}>
                <td>{line.seq}</td>
                <td>{when(line.at)}</td>
                <td>{line.who}</td>
                <td>
                  <b>{line.what}</b> {told(line.body)}
                </td>
                <td>
                  <code title={line.hash}>{line.hash.slice(0, 8)}</code>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {list?.more && (
        <p>
          <button type="button" className="button" onClick={more}>
            Older lines
          </button>
        </p>
      )}
    </div>
  );
}

/** The facts of a line that are short enough to be read; prints are left to whoever exports the log. */
function told(body: Readonly<Record<string, unknown>>): string {
  return Object.entries(body)
    .flatMap(([name, value]) => {
      if (typeof value === "number") return [`${name} ${value}`];
      if (Array.isArray(value)) return [`${name}: ${value.length}`];
      return typeof value === "string" &&
        value.length <= 200 &&
        !/^[0-9a-f]{64}$/.test(value) &&
        name !== "device"
        ? [`${name} ${value}`]
        : [];
    })
    .join(", ");
}
