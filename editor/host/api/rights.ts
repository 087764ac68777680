// What a person must be for each route: the one table of rights. A route that is not in it cannot be added.
// `anyone` is for signing in alone.
import type { Role } from "../../../core/schemas/host.ts";

export const needs = {
  "get /api/hello": "viewer",
  "get /api/books": "viewer",
  "get /api/editions": "viewer",
  "get /api/books/{book}/editions": "viewer",
  "get /api/books/{book}/editions/{number}": "viewer",
  "post /api/books/{book}/editions": "lead",
  "get /api/books/{book}/sealing": "lead",
  "get /api/books/{book}/draft": "viewer",
  "put /api/books/{book}/draft": "lead",
  "get /api/books/{book}/draft/history": "viewer",
  "get /api/books/{book}/draft/history/{version}": "viewer",
  "get /api/texts/{print}": "viewer",
  "put /api/texts/{print}": "technician",
  "post /api/jobs/entries": "technician",
  "get /api/jobs": "viewer",
  "get /api/answers": "viewer",
  "get /api/jobs/{id}": "viewer",
  "get /api/jobs/{id}/again": "viewer",
  "get /api/jobs/{id}/trace": "viewer",
  "put /api/photos/{photo}": "technician",
  "get /api/photos/{photo}": "viewer",
  "get /api/events": "viewer",
  "get /api/sign-in": "anyone",
  "post /api/sign-in": "anyone",
  "post /api/sign-out": "anyone",
  "post /api/invitations/look": "anyone",
  "post /api/invitations/take": "anyone",
  "put /api/password": "viewer",
  "get /api/people": "lead",
  "put /api/people/{id}": "lead",
  "delete /api/people/{id}": "lead",
  "delete /api/people/{id}/sessions": "lead",
  "post /api/people/invitations": "lead",
  "delete /api/people/invitations/{id}": "lead",
  "get /api/log": "lead",
  "get /api/log/verify": "lead",
} as const satisfies Readonly<Record<string, Role | "anyone">>;

export type Need = keyof typeof needs;
