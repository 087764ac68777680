// What a person must be for each route: the one table of rights. A route that is not in it does not compile.
import type { Role } from "../../../core/schemas/host.ts";

export const needs = {
  "get /api/hello": "technician",
  "get /api/books": "technician",
  "get /api/editions": "technician",
  "get /api/books/{book}/editions": "technician",
  "get /api/books/{book}/editions/{number}": "technician",
  "post /api/books/{book}/editions": "lead",
  "get /api/books/{book}/draft": "yard",
  "put /api/books/{book}/draft": "yard",
  "get /api/books/{book}/draft/history": "yard",
  "get /api/books/{book}/draft/history/{version}": "yard",
  "get /api/texts/{print}": "technician",
  "put /api/texts/{print}": "technician",
  "post /api/jobs/entries": "technician",
  "get /api/jobs": "technician",
  "get /api/jobs/{id}": "technician",
  "get /api/jobs/{id}/again": "technician",
  "get /api/jobs/{id}/trace": "technician",
  "put /api/photos/{photo}": "technician",
  "get /api/photos/{photo}": "technician",
  "get /api/events": "technician",
  "get /api/log": "lead",
  "get /api/log/verify": "lead",
} as const satisfies Readonly<Record<string, Role>>;

export type Need = keyof typeof needs;
