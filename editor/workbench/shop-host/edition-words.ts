// What is said of sealed editions and of what stands against sealing one.
import type { EditionLine, Fault, SealProgress } from "../../../core/schemas/host.ts";
import type { VerificationView } from "../../../core/view.ts";
import type { Snapshot } from "../../client/engine/messages.ts";

export const when = (at: number): string => written.format(at);

/** Made once: a list of a thousand jobs writes a thousand times. */
const written = new Intl.DateTimeFormat(undefined, { dateStyle: "medium", timeStyle: "short" });

export const faultCount = (count: number): string => (count === 1 ? "1 fault" : `${count} faults`);

/** "All 14 goals proved", "12 of 14 goals proved". */
export function provedWords({ goals, proved, done }: EditionLine["standing"]): string {
  if (goals === 0) return "nothing to prove";
  return proved === goals
    ? `all ${goals} goals proved`
    : `${proved} of ${goals} goals proved${done ? "" : ", the time was over"}`;
}

export function faultWord(fault: Fault): string {
  switch (fault.is) {
    case "error":
      return "Fault in the text";
    case "example":
      return "Example fails";
    case "promise":
      return "Promise broken";
    case "not settled":
      return "Not proved";
  }
}

/**
 * What the bench itself knows against sealing this text; `standing` only where it is of this very text. The
 * host looks for itself before it seals.
 */
export function faultsSeen(snapshot: Snapshot, standing: VerificationView | undefined): readonly Fault[] {
  const lineAt = (place: number): number => snapshot.text.slice(0, place).split("\n").length;
  const errors = snapshot.findings.filter((one) => one.weight === "error");
  // What a failing example gives instead is a finding of its own; one that is silent fails for another
  // reason.
  const told = (name: string): boolean =>
    errors.some((one) => one.code === "worked/fails" && one.says.startsWith(`The worked example ${name} `));
  return [
    ...errors.map(
      (one): Fault => ({
        is: one.code === "worked/fails" ? "example" : "error",
        says: one.says,
        ...(one.at.start > snapshot.text.length ? {} : { line: lineAt(one.at.start) }),
      }),
    ),
    ...snapshot.worked
      .filter((one) => !one.passes && !told(one.name))
      .map(
        (one): Fault => ({
          is: "example",
          says: `The worked example ${one.name} does not come out as it says.`,
        }),
      ),
    ...(standing?.goals ?? []).flatMap((goal): readonly Fault[] => {
      switch (goal.verdict) {
        case "broken":
          return [{ is: "promise", says: `Broken: ${goal.says}` }];
        case "not settled":
          return [{ is: "not settled", says: `Not proved: ${goal.says}` }];
        case "proved":
        case "looking":
          return [];
      }
    }),
  ];
}

/** Words are looked for in all that is written of an edition. */
export function editionMatches(edition: EditionLine, wanted: string): boolean {
  const text = (
    `edition ${edition.number} ${edition.title} ${edition.who} ${edition.why} ` +
    `${edition.reason ?? ""} ${edition.print}`
  ).toLowerCase();
  return wanted
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word));
}

/** What the host is doing while a book is being sealed. */
export function sealingWords(progress: SealProgress | undefined): string {
  if (progress?.is === "proving")
    return `The host proves the book: ${progress.settled} of ${progress.all} settled.`;
  if (progress?.is === "waiting") return "The host is reading the book, or another proof goes first.";
  return "The host is reading the book.";
}
