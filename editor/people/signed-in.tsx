// The sign-in page for who is signed in: where to go on to, and the change of the password.
import type { FormEvent } from "react";
import { useState } from "react";
import type { SignedIn } from "../../core/schemas/host.ts";
import { ask, sayPeople as say } from "./asking.ts";
import { PasswordField, PasswordRule } from "./password-field.tsx";

type You = NonNullable<SignedIn["you"]>;

export function SignedInPart({ you }: { readonly you: You }) {
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
      <ChangePassword name={you.name} />
    </>
  );
}

function ChangePassword({ name }: { readonly name: string }) {
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
    <form onSubmit={change} action="/sign-in.html" method="post">
      <h2>{say("sign.change")}</h2>
      {says && (
        <p className={says.bad ? "finding error" : "finding note"} role={says.bad ? "alert" : "status"}>
          {says.text}
        </p>
      )}
      <input type="hidden" name="username" autoComplete="username" value={name} readOnly />
      <PasswordField name="old" label={say("sign.old")} autoComplete="current-password" />
      <PasswordField name="password" label={say("sign.new")} autoComplete="new-password" hasRule />
      <PasswordRule />
      <button type="submit" className="button">
        {say("sign.change")}
      </button>
    </form>
  );
}
