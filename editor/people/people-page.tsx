// The page on which a lead looks after the people of the shop: who there is, their roles and sessions,
// invitations.
import { useState } from "react";
import { createRoot } from "react-dom/client";
import type { People, Role } from "../../core/schemas/host.ts";
import { pageSettings } from "../ui/words/page-settings.ts";
import { sayPeople as say } from "./asking.ts";
import { usePeople } from "./use-people.ts";
import type { PeopleState } from "./use-people.ts";
import "../ui/look/look.css";
import "./people.css";

const roles: readonly Role[] = ["viewer", "technician", "lead"];
document.documentElement.lang = pageSettings().language;
document.title = say("people.title");

function PeoplePage() {
  const state = usePeople();
  const { all, trouble } = state;
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
              <Person key={one.id} person={one} state={state} />
            ))}
          </ul>
          <Invite state={state} />
          <Invitations invitations={all.invitations} state={state} />
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

interface PersonProps {
  readonly person: People["people"][number];
  readonly state: PeopleState;
}

/** Removed by the second of two presses. */
function Person({ person, state }: PersonProps) {
  const { id, name } = person;
  const sure = state.sure === id;
  return (
    <li>
      <b>{name}</b>
      <RoleChoice
        value={person.role}
        onChange={(role) => void state.change("PUT", `/api/people/${id}`, { role })}
        label={`${say("people.role")}: ${name}`}
      />
      <span className="people-soft">{say("people.sessions", { count: person.sessions.length })}</span>
      <button
        type="button"
        className="button"
        disabled={person.sessions.length === 0}
        aria-label={`${say("people.end")}: ${name}`}
        onClick={() => void state.change("DELETE", `/api/people/${id}/sessions`)}
      >
        {say("people.end")}
      </button>
      <button
        type="button"
        className="button"
        aria-label={sure ? undefined : `${say("people.remove")}: ${name}`}
        onBlur={() => state.setSure("")}
        onClick={() => {
          if (sure) void state.change("DELETE", `/api/people/${id}`);
          else state.setSure(id);
        }}
      >
        {sure ? say("people.sure", { name }) : say("people.remove")}
      </button>
    </li>
  );
}

interface RoleChoiceProps {
  readonly value: Role;
  readonly onChange: (role: Role) => void;
  readonly label: string;
}

function RoleChoice({ value, onChange, label }: RoleChoiceProps) {
  return (
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
}

function Invite({ state }: { readonly state: PeopleState }) {
  const [role, setRole] = useState<Role>("technician");
  return (
    <>
      <h2>{say("people.invite")}</h2>
      <p className="people-ways">
        <span>{say("people.as")}</span>{" "}
        <RoleChoice value={role} onChange={setRole} label={say("people.role")} />{" "}
        <button type="button" className="button main" onClick={() => void state.invite(role)}>
          {say("people.make")}
        </button>
      </p>
      {state.link !== "" && <InvitationLink link={state.link} state={state} />}
    </>
  );
}

/** Shown once, to be handed to the one person. */
function InvitationLink({ link, state }: { readonly link: string; readonly state: PeopleState }) {
  return (
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
        onClick={() => void navigator.clipboard?.writeText(link).then(() => state.setCopied(true))}
      >
        {say(state.copied ? "people.copied" : "people.copy")}
      </button>
    </p>
  );
}

interface InvitationsProps {
  readonly invitations: People["invitations"];
  readonly state: PeopleState;
}

function Invitations({ invitations, state }: InvitationsProps) {
  if (invitations.length === 0) return null;
  return (
    <>
      <h2>{say("people.open")}</h2>
      <ul className="people-list">
        {invitations.map((one) => (
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
              onClick={() => void state.change("DELETE", `/api/people/invitations/${one.id}`)}
            >
              {say("people.back")}
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}

const root = document.getElementById("root");
if (root) createRoot(root).render(<PeoplePage />);
