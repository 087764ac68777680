// The page on which a lead looks after the people of the shop: who there is, their roles and sessions,
// invitations.
import { useCallback, useEffect, useState } from "react";
import { createRoot } from "react-dom/client";
import type { People, Role } from "../../core/schemas/host.ts";
import { ask, sayPeople as say } from "./asking.ts";
import { pageSettings } from "../ui/words/page-settings.ts";
import "../ui/look/look.css";
import "./people.css";

const roles: readonly Role[] = ["viewer", "technician", "lead"];
document.documentElement.lang = pageSettings().language;
document.title = say("people.title");

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
function PeoplePage() {
  const [all, setAll] = useState<People>();
  const [trouble, setTrouble] = useState("");
  const [sure, setSure] = useState("");
  const [link, setLink] = useState("");
  const [copied, setCopied] = useState(false);
  const [role, setRole] = useState<Role>("technician");
  const load = useCallback(async () => {
    const answer = await ask<People>("GET", "/api/people");
    if ("got" in answer) setAll(answer.got);
    else if (answer.status === 401) location.assign("/sign-in.html?back=%2Fpeople.html");
    else setTrouble(answer.status === 403 ? say("people.only-lead") : answer.says);
  }, []);
  useEffect(() => {
    void load();
  }, [load]);
  const act = async (method: "PUT" | "DELETE", path: string, body?: unknown): Promise<void> => {
    const answer = await ask(method, path, body);
    setTrouble("got" in answer ? "" : answer.says);
    setSure("");
    await load();
  };
  const invite = async (): Promise<void> => {
    const answer = await ask<{ path: string }>("POST", "/api/people/invitations", { role });
    setTrouble("got" in answer ? "" : answer.says);
    setCopied(false);
    if ("got" in answer) setLink(new URL(`/${answer.got.path}`, location.href).href);
    await load();
  };
  const choice = (value: Role, onChange: (role: Role) => void, label: string) => (
    <select
      className="field"
      aria-label={label}
      value={value}
      onChange={(event) => onChange(event.target.value as Role)}
    >
      {roles.map((one) => (
        <option key={one} value={one}>
          {say(`role.${one}`)}
        </option>
      ))}
    </select>
  );
  return (
    <main className="people-page is-wide">
      <h1>{say("people.title")}</h1>
      {trouble !== "" && (
        <p className="finding error" role="alert">
          {trouble}
        </p>
      )}
      {all && (
        <>
          <p className="people-soft">{say("people.roles")}</p>
          <ul className="people-list">
            {all.people.map((one) => (
              <li key={one.id}>
                <b>{one.name}</b>
                {choice(
                  one.role,
                  (to) => void act("PUT", `/api/people/${one.id}`, { role: to }),
                  `${say("people.role")}: ${one.name}`,
                )}
                <span className="people-soft">{say("people.sessions", { count: one.sessions.length })}</span>
                <button
                  type="button"
                  className="button"
                  disabled={one.sessions.length === 0}
                  aria-label={`${say("people.end")}: ${one.name}`}
                  onClick={() => void act("DELETE", `/api/people/${one.id}/sessions`)}
                >
                  {say("people.end")}
                </button>
                <button
                  type="button"
                  className="button"
                  aria-label={sure === one.id ? undefined : `${say("people.remove")}: ${one.name}`}
                  onBlur={() => setSure("")}
                  onClick={() => {
                    if (sure === one.id) void act("DELETE", `/api/people/${one.id}`);
                    else setSure(one.id);
                  }}
                >
                  {sure === one.id ? say("people.sure", { name: one.name }) : say("people.remove")}
                </button>
              </li>
            ))}
          </ul>
          <h2>{say("people.invite")}</h2>
          <p className="people-ways">
            <span>{say("people.as")}</span> {choice(role, setRole, say("people.role"))}{" "}
            <button type="button" className="button main" onClick={() => void invite()}>
              {say("people.make")}
            </button>
          </p>
          {link !== "" && (
            <p className="people-link" role="status">
              {say("people.give")}
              <input
                className="field"
                readOnly
                value={link}
                aria-label={say("people.link")}
                onFocus={(event) => event.target.select()}
              />
              <button
                type="button"
                className="button"
                onClick={() => void navigator.clipboard?.writeText(link).then(() => setCopied(true))}
              >
                {say(copied ? "people.copied" : "people.copy")}
              </button>
            </p>
          )}
          {all.invitations.length > 0 && (
            <>
              <h2>{say("people.open")}</h2>
              <ul className="people-list">
                {all.invitations.map((one) => (
                  <li key={one.id}>
                    <span>
                      {one.name}{" "}
                      {say("people.by", {
                        role: say(`role.${one.role}`),
                        who: one.who,
                        ends: new Date(one.ends).toLocaleString(pageSettings().language),
                      })}
                    </span>{" "}
                    <button
                      type="button"
                      className="button"
                      onClick={() => void act("DELETE", `/api/people/invitations/${one.id}`)}
                    >
                      {say("people.back")}
                    </button>
                  </li>
                ))}
              </ul>
            </>
          )}
        </>
      )}
      {/* Also for who may see nothing here. */}
      <p className="people-ways">
        <a className="button" href="/">
          {say("people.bench")}
        </a>{" "}
        <a className="button" href="/sign-in.html">
          {say("people.account")}
        </a>
      </p>
    </main>
  );
}

const root = document.getElementById("root");
if (root) createRoot(root).render(<PeoplePage />);
