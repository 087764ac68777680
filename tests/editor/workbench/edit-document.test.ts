// Edits of the document: each is made against the text that it names, moved along with what changed since,
// and refused where the same place changed; undo takes back exactly what was done.
import fc from "fast-check";
import { expect, test, vi } from "vitest";
import { applyEdits } from "../../../core/span.ts";
import type { Listener } from "../../../editor/client/engine/client.ts";
import type { Snapshot, Wanted } from "../../../editor/client/engine/messages.ts";
import { createWorkbenchStore } from "../../../editor/workbench/store/document.ts";
import { editsNow, withChange } from "../../../editor/workbench/store/document-state.ts";

// No other tab: a browser without locks writes at once.
vi.stubGlobal("navigator", {});

/** A store whose engine answers when the test says so. */
async function storeOf(text: string) {
  let listener: Listener | undefined;
  const wishes: Wanted[] = [];
  const store = createWorkbenchStore(undefined, (heard) => {
    listener = heard;
    return {
      show: (wanted) => wishes.push(wanted),
      ask: () => Promise.resolve(undefined),
      close: () => undefined,
    };
  });
  await store.openText(text, "a book");
  const answer = (of: string): void =>
    listener!.snapshot({ text: of, rows: [], findings: [], under: [] } as unknown as Snapshot);
  answer(text);
  return { store, wishes, answer, text: () => store.state().desk.text };
}

test("an edit of another place needs no snapshot of the text in between", async () => {
  const { store, text } = await storeOf("one = 1\ntwo = 2\nthree = 3\n");
  const seen = text();
  expect(store.edit([{ at: { start: 6, end: 7 }, text: "1111" }], seen)).toBe(true);
  expect(store.edit([{ at: { start: 14, end: 15 }, text: "22" }], seen)).toBe(true);
  expect(text()).toBe("one = 1111\ntwo = 22\nthree = 3\n");
  store.undo();
  store.undo();
  expect(text()).toBe(seen);
});

test("a second edit of the same place replaces the first", async () => {
  const { store, text } = await storeOf("one = 1\ntwo = 2\n");
  const seen = text();
  store.edit([{ at: { start: 6, end: 7 }, text: "x * 3" }], seen);
  expect(store.edit([{ at: { start: 6, end: 7 }, text: "12" }], seen)).toBe(true);
  expect(text()).toBe("one = 12\ntwo = 2\n");
});

test("where the texts do not say which place was changed, the edit is refused", async () => {
  const { store, text } = await storeOf("one = 1\ntwo = 2\n");
  const seen = text();
  // " 10 +" before the space, "10 + " before the 1 or "0 + 1" behind it: all give this text.
  store.edit([{ at: { start: 6, end: 7 }, text: "10 + 1" }], seen);
  expect(store.edit([{ at: { start: 6, end: 7 }, text: "12" }], seen)).toBe(false);
});

test("an edit within what was replaced since is refused, and so is one against an unknown text", async () => {
  const { store, text } = await storeOf("one = 1 + 2 + 3\n");
  const seen = text();
  store.setText("another text\n");
  expect(store.edit([{ at: { start: 8, end: 9 }, text: "5" }], seen)).toBe(false);
  expect(store.edit([{ at: { start: 0, end: 1 }, text: "5" }], "never seen\n")).toBe(false);
  expect(text()).toBe("another text\n");
});

test("once a newer snapshot is shown, edits against an older text are refused", async () => {
  const { store, answer, text } = await storeOf("one = 1\ntwo = 2\n");
  const seen = text();
  store.edit([{ at: { start: 0, end: 0 }, text: "-- " }]);
  const second = text();
  store.edit([{ at: { start: 0, end: 0 }, text: "-- " }]);
  answer(second);
  expect(store.edit([{ at: { start: 14, end: 15 }, text: "22" }], seen)).toBe(false);
  expect(store.edit([{ at: { start: 17, end: 18 }, text: "22" }], second)).toBe(true);
  expect(text()).toBe("-- -- one = 1\ntwo = 22\n");
});

test("a place is shown once the snapshot is that of the text as it is", async () => {
  const { store, answer, text } = await storeOf("one = 1\n");
  const seen = text();
  store.edit([{ at: { start: 6, end: 7 }, text: "2" }]);
  let shown = false;
  const waiting = store.shown().then(() => {
    shown = true;
  });
  answer(seen);
  await Promise.resolve();
  expect(shown).toBe(false);
  answer(text());
  await waiting;
  expect(shown).toBe(true);
});

test("edits of different places come to the same, whichever is made first", () => {
  fc.assert(
    fc.property(
      fc.string({ minLength: 4, maxLength: 30, unit: fc.constantFrom("a", "b", "\n") }),
      fc.nat(),
      fc.nat(),
      fc.string({ unit: fc.constantFrom("a", "b") }),
      fc.string({ unit: fc.constantFrom("a", "b") }),
      (...given) => {
        const [text, a, b, first, second] = given;
        const [low, high] = [a % text.length, b % text.length].sort((x, y) => x - y) as [number, number];
        // A place between them stays as it is, so that neither touches the other.
        fc.pre(high - low > 1);
        const early = { at: { start: low, end: low + 1 }, text: first };
        const late = { at: { start: high, end: high + 1 }, text: second };
        const both = applyEdits(text, [early, late]);
        for (const [one, other] of [
          [early, late],
          [late, early],
        ] as const) {
          const between = applyEdits(text, [one]);
          const moved = editsNow([other], text, between, withChange([], text, between));
          // Equal letters beside the edit may make both touch: then it is refused, never misplaced.
          if (moved !== undefined) expect(applyEdits(between, moved)).toBe(both);
        }
      },
    ),
  );
});
