// What happens to a rule's text while it is written: words offered, a word taken, a repair made. Pure.
import type { Finding } from "../../../core/view.ts";
import type { OffersAt } from "../../client/engine/messages.ts";

/** A draft with the place of the cursor in it. */
export interface CaretDraft {
  readonly draft: string;
  readonly caret: number;
}

const mostOffers = 7;

/** Offers that go on with what is typed; none where they were made for a longer draft. */
export function fittingOffers(draft: string, offers: OffersAt | undefined): OffersAt["offers"] {
  if (!offers || offers.at.end > draft.length) return [];
  const typed = draft.slice(offers.at.start, offers.at.end);
  return offers.offers
    .filter((offer) => offer.label.startsWith(typed) && offer.label !== typed)
    .slice(0, mostOffers);
}

/** The draft with an offered text in the place that it is offered for. */
export function withOffer(draft: string, at: OffersAt["at"], insert: string): CaretDraft {
  return {
    draft: draft.slice(0, at.start) + insert + draft.slice(at.end),
    caret: at.start + insert.length,
  };
}

/** Whether all of a finding's first repair lies within the draft. */
export function repairsWithin(finding: Finding, draft: string): boolean {
  const edits = finding.repairs[0]?.edits;
  return edits?.every((edit) => edit.at.start >= 0 && edit.at.end <= draft.length) ?? false;
}

/** The draft with a finding's first repair made; undefined where it has none within the draft. */
export function repaired(draft: string, finding: Finding | undefined): string | undefined {
  if (!finding || !repairsWithin(finding, draft)) return undefined;
  return [...(finding.repairs[0]?.edits ?? [])]
    .sort((a, b) => b.at.start - a.at.start)
    .reduce((text, edit) => text.slice(0, edit.at.start) + edit.text + text.slice(edit.at.end), draft);
}
