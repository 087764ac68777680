// What the people page holds and does: the list from the host, changes to it, and the last invitation made.
import { useCallback, useEffect, useState } from "react";
import type { People, Role } from "../../core/schemas/host.ts";
import { ask, sayPeople as say } from "./asking.ts";

export interface PeopleState {
  /** Undefined until the host has answered, and for who may not see it. */
  readonly all: People | undefined;
  /** What the host refused, in a sentence; "" where nothing. */
  readonly trouble: string;
  /** Id of the person whose removal was pressed once. */
  readonly sure: string;
  readonly setSure: (id: string) => void;
  /** Address of the last invitation made; "" before one is made. */
  readonly link: string;
  readonly copied: boolean;
  readonly setCopied: (copied: boolean) => void;
  readonly change: (method: "PUT" | "DELETE", path: string, body?: unknown) => Promise<void>;
  readonly invite: (role: Role) => Promise<void>;
}

/** The list is read again after each change. */
export function usePeople(): PeopleState {
  const [all, setAll] = useState<People>();
  const [trouble, setTrouble] = useState("");
  const [sure, setSure] = useState("");
  const [link, setLink] = useState("");
  const [copied, setCopied] = useState(false);
  const load = useCallback(async () => {
    const answer = await ask<People>("GET", "/api/people");
    if ("got" in answer) setAll(answer.got);
    else if (answer.status === 401) location.assign("/sign-in.html?back=%2Fpeople.html");
    else setTrouble(answer.status === 403 ? say("people.only-lead") : answer.says);
  }, []);
  useEffect(() => {
    void load();
  }, [load]);
  const change: PeopleState["change"] = async (method, path, body) => {
    const answer = await ask(method, path, body);
    setTrouble("got" in answer ? "" : answer.says);
    setSure("");
    await load();
  };
  const invite = async (role: Role): Promise<void> => {
    const answer = await ask<{ path: string }>("POST", "/api/people/invitations", { role });
    setTrouble("got" in answer ? "" : answer.says);
    setCopied(false);
    if ("got" in answer) setLink(new URL(`/${answer.got.path}`, location.href).href);
    await load();
  };
  return { all, trouble, sure, setSure, link, copied, setCopied, change, invite };
}
