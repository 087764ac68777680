// The page on which people sign in, take an invitation, or change their password.
import type { FormEvent } from "react";
import { useEffect, useState } from "react";
import { createRoot } from "react-dom/client";
import type { Invitation, SignedIn } from "../../core/schemas/host.ts";
import { ask, sayPeople as say } from "./asking.ts";
import { PasswordField, PasswordRule } from "./password-field.tsx";
import { SignedInPart } from "./signed-in.tsx";
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

interface SignInState {
  /** Undefined until the host has answered. */
  readonly now: SignedIn | undefined;
  readonly invitation: Invitation | undefined;
  /** What the host refused, in a sentence; "" where nothing. */
  readonly trouble: string;
  readonly busy: boolean;
  readonly send: (name: string, password: string) => void;
}

function useSignIn(): SignInState {
  const [now, setNow] = useState<SignedIn>();
  const [invitation, setInvitation] = useState<Invitation>();
  const [trouble, setTrouble] = useState("");
  const [busy, setBusy] = useState(false);
  useEffect(() => {
    void ask<SignedIn>("GET", "/api/sign-in").then((answer) =>
      "got" in answer ? setNow(answer.got) : setTrouble(answer.says),
    );
    if (token !== undefined)
      void ask<Invitation>("POST", "/api/invitations/look", { token }).then((answer) =>
        "got" in answer ? setInvitation(answer.got) : setTrouble(answer.says),
      );
  }, []);
  const send = (name: string, password: string): void => {
    setBusy(true);
    setTrouble("");
    void signIn(name, password, invitation).then((answer) => {
      setBusy(false);
      if ("got" in answer) goOn(answer.got.you?.role ?? "");
      else setTrouble(answer.says);
    });
  };
  return { now, invitation, trouble, busy, send };
}

/** Signs in, or takes the invitation. An invitation to a new password has its person's name already. */
const signIn = (name: string, password: string, invitation: Invitation | undefined) =>
  invitation === undefined
    ? ask<SignedIn>("POST", "/api/sign-in", { name, password })
    : ask<SignedIn>("POST", "/api/invitations/take", {
        token,
        password,
        ...(invitation.name === undefined ? { name } : {}),
      });

function titleOf({ now, invitation }: SignInState): string {
  if (invitation !== undefined)
    return say(invitation.name === undefined ? "sign.invited-title" : "sign.anew-title");
  return say(now?.you !== undefined && now.asked ? "sign.you-title" : "sign.title");
}

function SignIn() {
  const state = useSignIn();
  const { now, invitation, trouble } = state;
  const title = titleOf(state);
  useEffect(() => {
    document.title = title;
  }, [title]);
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
        <SignInForm state={state} />
      )}
    </main>
  );
}

function SignInForm({ state }: { readonly state: SignInState }) {
  const { invitation, busy } = state;
  const submit = (event: FormEvent<HTMLFormElement>): void => {
    event.preventDefault();
    const given = new FormData(event.currentTarget);
    state.send(String(given.get("name") ?? ""), String(given.get("password") ?? ""));
  };
  return (
    <form onSubmit={submit} action="/sign-in.html" method="post">
      <p>{firstWords(invitation)}</p>
      {invitation?.name === undefined && (
        <label>
          <span className="label">{say("sign.name")}</span>
          <input className="field" name="name" autoComplete="username" required maxLength={80} />
        </label>
      )}
      <PasswordField
        name="password"
        label={say("sign.password")}
        autoComplete={invitation === undefined ? "current-password" : "new-password"}
        hasRule={invitation !== undefined}
      />
      {invitation && <PasswordRule />}
      <button type="submit" className="button main" disabled={busy}>
        {say(invitation === undefined ? "sign.go" : "sign.take")}
      </button>
    </form>
  );
}

function firstWords(invitation: Invitation | undefined): string {
  if (invitation === undefined) return say("sign.first");
  return invitation.name === undefined
    ? say("sign.invited", { role: say(`role.${invitation.role}`) })
    : say("sign.anew", { name: invitation.name });
}

const root = document.getElementById("root");
if (root) createRoot(root).render(<SignIn />);
