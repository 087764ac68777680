// Routes of people: signing in and out, invitations, passwords, and what a lead looks after.
import type { Context } from "hono";
import { setCookie } from "hono/cookie";
import {
  invitation,
  invitationMade,
  invitationTaken,
  invitationWish,
  invited,
  passwordChange,
  people,
  refusal,
  roleChange,
  signIn as signInWish,
  signedIn,
} from "../../../core/schemas/host.ts";
import {
  changePassword,
  changeRole,
  endSessions,
  invitationPath,
  invite,
  listPeople,
  longest,
  lookAtInvitation,
  removePerson,
  signIn,
  signOut,
  takeBackInvitation,
  takeInvitation,
} from "../people/accounts.ts";
import { trouble } from "../trouble.ts";
import { type Api, type HostParts, add, createRoute, given, json, refusals, z } from "./routes.ts";
import { type Gate, addressOf, cookieName, openGate, tokenOf } from "./who.ts";

const inPerson = z.object({ id: z.uuid() });
const done = json(z.object({ done: z.literal(true) }), "Done");
const slowly = {
  422: json(refusal, "Not taken; the sentence says why"),
  429: json(refusal, "Too many tries; the sentence says how long to wait"),
};

const readSignIn = createRoute({
  method: "get",
  path: "/api/sign-in",
  summary: "Whether people sign in here, and who this browser is",
  responses: { 200: json(signedIn, "`you` is absent for nobody that is known"), ...refusals },
});

const signInRoute = createRoute({
  method: "post",
  path: "/api/sign-in",
  summary: "Signs in: a session in a cookie",
  request: { body: given(signInWish) },
  responses: { 200: json(signedIn, "Signed in"), ...refusals, ...slowly },
});

const signOutRoute = createRoute({
  method: "post",
  path: "/api/sign-out",
  summary: "Ends this browser's session",
  responses: { 200: done, ...refusals },
});

const writePassword = createRoute({
  method: "put",
  path: "/api/password",
  summary: "Changes one's own password; all one's sessions end but a new one here",
  request: { body: given(passwordChange) },
  responses: { 200: done, ...refusals, ...slowly },
});

const lookAtInvitationRoute = createRoute({
  method: "post",
  path: "/api/invitations/look",
  summary: "What an invitation is for",
  request: { body: given(invited) },
  responses: { 200: json(invitation, "It is open"), ...refusals, ...slowly },
});

const takeInvitationRoute = createRoute({
  method: "post",
  path: "/api/invitations/take",
  summary: "Takes an invitation, once: a name and a password, or a new password",
  request: { body: given(invitationTaken) },
  responses: { 200: json(signedIn, "Signed in"), ...refusals, ...slowly },
});

const listPeopleRoute = createRoute({
  method: "get",
  path: "/api/people",
  summary: "People, their sessions, and open invitations",
  responses: { 200: json(people, "By name"), ...refusals },
});

const inviteRoute = createRoute({
  method: "post",
  path: "/api/people/invitations",
  summary: "Invites someone",
  request: { body: given(invitationWish) },
  responses: { 201: json(invitationMade, "Shown this once"), ...refusals },
});

const takeBackRoute = createRoute({
  method: "delete",
  path: "/api/people/invitations/{id}",
  summary: "Takes an invitation back",
  request: { params: z.object({ id: z.string().regex(/^[0-9a-f]{16}$/) }) },
  responses: { 200: done, ...refusals },
});

const changeRoleRoute = createRoute({
  method: "put",
  path: "/api/people/{id}",
  summary: "Changes someone's role",
  request: { params: inPerson, body: given(roleChange) },
  responses: { 200: done, ...refusals, 422: slowly[422] },
});

const removeRoute = createRoute({
  method: "delete",
  path: "/api/people/{id}",
  summary: "Removes someone; what they did stays under their name",
  request: { params: inPerson },
  responses: { 200: done, ...refusals, 422: slowly[422] },
});

const endSessionsRoute = createRoute({
  method: "delete",
  path: "/api/people/{id}/sessions",
  summary: "Ends all sessions of someone",
  request: { params: inPerson },
  responses: { 200: done, ...refusals },
});
/** Puts the session's token into the browser's cookie; an empty one with no age takes it away. */
const setToken = (context: Context, gate: Gate, token: string, maxAge = longest / 1000): void =>
  setCookie(context, cookieName(gate), token, {
    httpOnly: true,
    sameSite: "Strict",
    secure: gate.secure,
    path: "/",
    maxAge,
  });

function mustAsk(gate: Gate): void {
  if (!gate.asked) throw trouble("sign-in-not-asked");
}

const from = (context: Context, gate: Gate) => ({
  address: addressOf(context, gate),
  device: (context.req.header("user-agent") ?? "").replace(/[^\x20-\x7e]/g, "").slice(0, 200),
});

export function peopleRoutes(app: Api, parts: HostParts): void {
  sessionRoutes(app, parts);
  invitationRoutes(app, parts);
  leadRoutes(app, parts);
}

function sessionRoutes(app: Api, { database, who, gate = openGate }: HostParts): void {
  add(app, who, readSignIn, async (context) => {
    const person = await who(context);
    return context.json(
      {
        asked: gate.asked,
        ...(person === undefined ? {} : { you: { name: person.name, role: person.role } }),
      },
      200,
    );
  });
  add(app, who, signInRoute, async (context) => {
    mustAsk(gate);
    const { token, person } = await signIn(database, {
      ...context.req.valid("json"),
      ...from(context, gate),
      old: tokenOf(context, gate),
    });
    setToken(context, gate, token);
    return context.json({ asked: true, you: { name: person.name, role: person.role } }, 200);
  });
  add(app, who, signOutRoute, async (context) => {
    const token = tokenOf(context, gate);
    if (token !== undefined) await signOut(database, token);
    setToken(context, gate, "", 0);
    // What the browser keeps of answers, photographs among them. Not its storage: on a tablet that holds what
    // is not delivered yet.
    context.header("Clear-Site-Data", '"cache"');
    return context.json({ done: true as const }, 200);
  });
  add(app, who, writePassword, async (context) => {
    const { id, name, role } = context.var.person;
    if (id === undefined) throw trouble("password-of-nobody");
    const change = { ...context.req.valid("json"), ...from(context, gate) };
    setToken(context, gate, await changePassword(database, { id, name, role }, change));
    return context.json({ done: true as const }, 200);
  });
}

function invitationRoutes(app: Api, { database, who, gate = openGate }: HostParts): void {
  add(app, who, lookAtInvitationRoute, async (context) => {
    mustAsk(gate);
    return context.json(
      await lookAtInvitation(database, context.req.valid("json").token, addressOf(context, gate)),
      200,
    );
  });
  add(app, who, takeInvitationRoute, async (context) => {
    mustAsk(gate);
    const { token, person } = await takeInvitation(database, {
      ...context.req.valid("json"),
      ...from(context, gate),
    });
    setToken(context, gate, token);
    return context.json({ asked: true, you: { name: person.name, role: person.role } }, 200);
  });
}

/** What a lead looks after. */
function leadRoutes(app: Api, { database, who }: HostParts): void {
  add(app, who, listPeopleRoute, async (context) => context.json(await listPeople(database), 200));
  add(app, who, inviteRoute, async (context) => {
    const { token, ends } = await invite(database, context.var.person.name, context.req.valid("json").role);
    return context.json({ path: invitationPath(token), ends }, 201);
  });
  add(app, who, takeBackRoute, async (context) => {
    await takeBackInvitation(database, context.var.person.name, context.req.valid("param").id);
    return context.json({ done: true as const }, 200);
  });
  add(app, who, changeRoleRoute, async (context) => {
    await changeRole(
      database,
      context.var.person.name,
      context.req.valid("param").id,
      context.req.valid("json").role,
    );
    return context.json({ done: true as const }, 200);
  });
  add(app, who, removeRoute, async (context) => {
    await removePerson(database, context.var.person.name, context.req.valid("param").id);
    return context.json({ done: true as const }, 200);
  });
  add(app, who, endSessionsRoute, async (context) => {
    await endSessions(database, context.var.person.name, context.req.valid("param").id);
    return context.json({ done: true as const }, 200);
  });
}
