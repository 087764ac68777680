// Undo and redo over the desk: whatever was done is taken back exactly, and quick typing is one step.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { noHistory, pause, record, redo, undo } from "../../../editor/workbench/store/history.ts";
import type { Document, History } from "../../../editor/client/storage/stored-work.ts";

const desk = (text: string): Document => ({ text, accepted: text, jobs: [] });

describe("history", () => {
  it("takes back and does again any run of texts", () => {
    fc.assert(
      fc.property(
        fc.array(fc.string({ maxLength: 12 }), { minLength: 1, maxLength: 12 }),
        fc.boolean(),
        (texts, grouped) => {
          let history: History = noHistory;
          let now = desk("");
          const start = now;
          texts.forEach((text, n) => {
            const next = { ...now, text };
            history = record(
              history,
              now,
              next,
              n * (grouped ? 10 : pause * 2),
              grouped ? "typing" : undefined,
            );
            now = next;
          });
          const end = now;
          let steps = 0;
          for (let back = undo(history, now); back; back = undo(history, now)) {
            ({ history, desk: now } = back);
            steps += 1;
          }
          expect(now.text).toBe(start.text);
          for (let on = redo(history, now); on; on = redo(history, now)) {
            ({ history, desk: now } = on);
            steps -= 1;
          }
          expect(now.text).toBe(end.text);
          expect(steps).toBe(0);
        },
      ),
      { seed: 41, numRuns: 400 },
    );
  });

  it("joins quick typing in one place, and parts it after a pause", () => {
    let history = noHistory;
    let now = desk("thickness");
    const type = (text: string, when: number): void => {
      const next = { ...now, text };
      history = record(history, now, next, when, "typing");
      now = next;
    };
    type("thickness r", 0);
    type("thickness ru", 100);
    type("thickness run", 200);
    expect(history.done).toHaveLength(1);
    type("thickness run ", 200 + pause + 1);
    expect(history.done).toHaveLength(2);
  });

  it("does not join typing in two places", () => {
    let history = noHistory;
    const first = desk("aaaa bbbb");
    const second = { ...first, text: "aaaa bbbb!" };
    const third = { ...first, text: "?aaaa bbbb!" };
    history = record(history, first, second, 0, "typing");
    history = record(history, second, third, 10, "typing");
    expect(history.done).toHaveLength(2);
    expect(undo(history, third)?.desk.text).toBe("aaaa bbbb!");
  });

  it("puts jobs and the accepted text back as well, and keeps nothing of what changed nothing", () => {
    const before: Document = { text: "a", accepted: "a", jobs: [] };
    const after: Document = {
      text: "b",
      accepted: "b",
      jobs: [{ id: "j1", name: "One", answers: { thickness: "6 mm" } }],
    };
    const history = record(noHistory, before, after, 0);
    expect(undo(history, after)?.desk).toEqual(before);
    expect(record(history, after, after, 1)).toBe(history);
  });
});
