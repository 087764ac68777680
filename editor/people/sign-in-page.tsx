// The page on which people sign in, take an invitation, or change their password.
import { type FormEvent, useEffect, useState } from "react";
import { createRoot } from "react-dom/client";
import type { Invitation, SignedIn } from "../../core/schemas/host.ts";
import { ask, sayPeople as say } from "./asking.ts";
import { wayBack } from "./way-back.ts";
import { pageSettings } from "../ui/words/page-settings.ts";
import "../ui/look/look.css";
import "./people.css";

const token = /^#invited=([\w-]{43})$/.exec(location.hash)?.[1];
// Kept in no history and on no screen.
if (token !== undefined) history.replaceState(null, "", location.pathname + location.search);
// An invitation that is opened in a tab where this page stands already changes no more than the address.
window.addEventListener("hashchange", () => location.reload());
document.documentElement.lang = pageSettings().language;

/** A technician's way leads to the job page unless the address names another. */
const goOn = (role: string): void =>
  location.assign(wayBack(location.search, role === "technician" ? "/job.html" : "/"));

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
function SignIn() {
  const [now, setNow] = useState<SignedIn>();
  const [invitation, setInvitation] = useState<Invitation>();
  const [trouble, setTrouble] = useState("");
  const [busy, setBusy] = useState(false);
  const title = say(
    invitation === undefined
      ? now?.you !== undefined && now.asked
        ? "sign.you-title"
        : "sign.title"
      : invitation.name === undefined
        ? "sign.invited-title"
        : "sign.anew-title",
  );
  useEffect(() => {
    document.title = title;
  }, [title]);
  useEffect(() => {
    void ask<SignedIn>("GET", "/api/sign-in").then((answer) =>
      "got" in answer ? setNow(answer.got) : setTrouble(answer.says),
    );
    if (token !== undefined)
      void ask<Invitation>("POST", "/api/invitations/look", { token }).then((answer) =>
        "got" in answer ? setInvitation(answer.got) : setTrouble(answer.says),
      );
  }, []);
  const send = (event: FormEvent<HTMLFormElement>): void => {
    event.preventDefault();
    const given = new FormData(event.currentTarget);
    const [name, password] = [String(given.get("name") ?? ""), String(given.get("password") ?? "")];
    setBusy(true);
    setTrouble("");
    const wish =
      invitation === undefined
        ? ask<SignedIn>("POST", "/api/sign-in", { name, password })
        : ask<SignedIn>("POST", "/api/invitations/take", {
            token,
            password,
            ...(invitation.name === undefined ? { name } : {}),
          });
    void wish.then((answer) => {
      setBusy(false);
      if ("got" in answer) goOn(answer.got.you?.role ?? "");
      else setTrouble(answer.says);
    });
  };
  return (
    <main className="people-page">
      <h1>{title}</h1>
      {trouble !== "" && (
        <p className="finding error" role="alert">
          {trouble}
        </p>
      )}
      {now?.asked === false && (
        <p>
          {say("sign.not-asked")} <a href="/">{say("sign.on")}</a>
        </p>
      )}
      {now?.asked === true && now.you !== undefined && invitation === undefined && (
        <SignedInPart you={now.you} />
      )}
      {now?.asked === true && (now.you === undefined || invitation !== undefined) && (
        <form onSubmit={send} action="/sign-in.html" method="post">
          <p>
            {invitation === undefined
              ? say("sign.first")
              : invitation.name === undefined
                ? say("sign.invited", { role: say(`role.${invitation.role}`) })
                : say("sign.anew", { name: invitation.name })}
          </p>
          {invitation?.name === undefined && (
            <label>
              <span className="label">{say("sign.name")}</span>
              <input className="field" name="name" autoComplete="username" required maxLength={80} />
            </label>
          )}
          <label>
            <span className="label">{say("sign.password")}</span>
            <input
              className="field"
              name="password"
              type="password"
              autoComplete={invitation === undefined ? "current-password" : "new-password"}
              required
              aria-describedby={invitation && "rule"}
            />
          </label>
          {invitation && (
            <p id="rule" className="people-soft">
              {say("sign.rule")}
            </p>
          )}
          <button type="submit" className="button main" disabled={busy}>
            {say(invitation === undefined ? "sign.go" : "sign.take")}
          </button>
        </form>
      )}
    </main>
  );
}

function SignedInPart({ you }: { readonly you: NonNullable<SignedIn["you"]> }) {
  const [says, setSays] = useState<{ readonly text: string; readonly bad: boolean }>();
  const change = (event: FormEvent<HTMLFormElement>): void => {
    event.preventDefault();
    const form = event.currentTarget;
    const given = new FormData(form);
    void ask("PUT", "/api/password", {
      old: String(given.get("old")),
      password: String(given.get("password")),
    }).then((answer) => {
      if ("got" in answer) form.reset();
      setSays("got" in answer ? { text: say("sign.changed"), bad: false } : { text: answer.says, bad: true });
    });
  };
  return (
    <>
      <p>{say("sign.you", { name: you.name, role: say(`role.${you.role}`) })}</p>
      <p className="people-ways">
        <a className="button" href="/">
          {say("sign.on")}
        </a>{" "}
        <a className="button" href="/job.html">
          {say("sign.job")}
        </a>{" "}
        {you.role === "lead" && (
          <a className="button" href="/people.html">
            {say("sign.people")}
          </a>
        )}{" "}
        <button
          type="button"
          className="button"
          onClick={() => void ask("POST", "/api/sign-out").then(() => location.assign("/sign-in.html"))}
        >
          {say("sign.out")}
        </button>
      </p>
      <form onSubmit={change} action="/sign-in.html" method="post">
        <h2>{say("sign.change")}</h2>
        {says && (
          <p className={says.bad ? "finding error" : "finding note"} role={says.bad ? "alert" : "status"}>
            {says.text}
          </p>
        )}
        <input type="hidden" name="username" autoComplete="username" value={you.name} readOnly />
        <label>
          <span className="label">{say("sign.old")}</span>
          <input className="field" name="old" type="password" autoComplete="current-password" required />
        </label>
        <label>
          <span className="label">{say("sign.new")}</span>
          <input
            className="field"
            name="password"
            type="password"
            autoComplete="new-password"
            required
            aria-describedby="rule"
          />
        </label>
        <p id="rule" className="people-soft">
          {say("sign.rule")}
        </p>
        <button type="submit" className="button">
          {say("sign.change")}
        </button>
      </form>
    </>
  );
}

const root = document.getElementById("root");
if (root) createRoot(root).render(<SignIn />);
