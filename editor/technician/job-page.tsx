// The technician's page: the questions of a job and its card, without the editor's weight. Answers are kept
// as they are given.
import { useEffect, useState, useSyncExternalStore } from "react";
import { createRoot } from "react-dom/client";
import { bundled, dependenciesOf } from "../../engine/index.ts";
import type { Answers, UnitSystem } from "../../core/view.ts";
import { WorkDrawingContext } from "../ui/drawings/work-drawing.ts";
import type { WorkDrawing } from "../ui/drawings/work-drawing.ts";
import { startEngine } from "../client/engine/client.ts";
import { jobWorker } from "../client/engine/job-engine-worker.ts";
import type { EngineClient } from "../client/engine/client.ts";
import type { JobPageCalls, Snapshot } from "../client/engine/messages.ts";
import { MeaningContext, meaningsOf } from "../card/meanings.ts";
import { ChooseBook } from "./choose-book.tsx";
import { JobScreen } from "../card/job-screen.tsx";
import type { Drafts } from "../card/job-screen.tsx";
import { PageHead } from "./page-head.tsx";
import { useLoaded } from "../ui/parts/load-later.ts";
import { RecordBar } from "./record/record-bar.tsx";
import { StepWait } from "./record/step-wait.tsx";
import { keepOffline } from "./offline/keep-offline.ts";
import { booksAtHand } from "../client/storage/book-resolver.ts";
import { bookOfJob, openDeviceJobs } from "./store/device-jobs.ts";
import { chooseBook, chosenBook, headOf, jobBook, jobBooks } from "./store/job-books.ts";
import type { JobBook } from "./store/job-books.ts";
import type { BrowserStorage } from "../client/storage/browser-storage.ts";
import { openBrowserStorage } from "../client/storage/browser-storage.ts";
import { hashText } from "../client/storage/content-hash.ts";
import type { Sealed } from "./store/sealed-books.ts";
import { keepSealed, sealedKept } from "./store/sealed-books.ts";
import type { KeptText } from "./store/record-storage.ts";
import { openRecordStorage } from "./store/record-storage.ts";
import type { WordKey } from "../ui/words/en.ts";
import { pageSettings, usePageSettings } from "../ui/words/page-settings.ts";
import { WordsContext, fetchDrawnWords, fetchWords, useWords, wordsIn } from "../ui/words/words.ts";
import "../ui/look/look.css";
import "./job-page.css";

interface Page {
  readonly key: string;
  /** The book that new jobs go by. */
  readonly text: string;
  readonly print: string;
  /** Texts of the books that it stands on, and no others; none where it names no other. */
  readonly shelf?: readonly string[] | undefined;
  /** The book of the open job, where it is another one; undefined if this device does not have it. */
  readonly other?: { readonly print: string; readonly book: KeptText | undefined };
  readonly units: UnitSystem;
  readonly drafts: Drafts;
  readonly snapshot?: Snapshot;
  readonly trouble?: { readonly key: WordKey; readonly reason: string };
  /** An edition sealed while this page was open, until it is read. */
  readonly news?: { readonly edition: number; readonly begun: boolean; readonly from: number | undefined };
  /** The list of books is on the screen. */
  readonly choosing?: boolean;
}

let page: Page = { key: "", text: "", print: "", units: "book", drafts: {} };
const listeners = new Set<() => void>();
const set = (part: Partial<Page>): void => {
  page = { ...page, ...part };
  for (const listener of listeners) listener();
};
const subscribe = (listener: () => void): (() => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};

// The engine and the words come while the browser opens what it keeps.
const engine: EngineClient<JobPageCalls> = startEngine<JobPageCalls>(jobWorker, {
  snapshot: (snapshot) => set({ snapshot }),
  busy: () => undefined,
  trouble: (says) =>
    set({
      trouble: says.startsWith("Working this out took")
        ? { key: "page.restarted", reason: "" }
        : { key: "page.failed", reason: says.replace(/ Your text is kept\.$/, "") },
    }),
});

const fetched = fetchWords(pageSettings().language).catch(() => undefined);
const [storage, shelfOfRecords] = await Promise.all([
  openBrowserStorage().catch((): BrowserStorage | undefined => undefined),
  openRecordStorage().catch(() => undefined),
]);
const deviceJobs = await openDeviceJobs(shelfOfRecords);
await fetched;

let sealed: Sealed = await sealedKept(deviceJobs.shelf);

/**
 * The text that the open job goes by: that of its own book, also after the book has been changed. Undefined
 * if this device does not have it.
 */
const textOfJob = (): string | undefined => (page.other === undefined ? page.text : page.other.book?.text);

let worked = "";
/** Works the open job where something that counts has changed. */
const work = (): void => {
  const { id, answers, book } = deviceJobs.state().open;
  const text = textOfJob();
  const print = page.other?.print ?? page.print;
  // The job's own book may still be looked for.
  if (text === undefined || (book?.print ?? page.print) !== print) return;
  const wanted = JSON.stringify([id, answers, page.units, print]);
  if (wanted === worked) return;
  worked = wanted;
  const shelf = page.other === undefined ? page.shelf : page.other.book?.under;
  engine.show({
    text,
    accepted: text,
    jobs: [{ id, answers }],
    units: page.units,
    card: id,
    hash: print,
    ...(shelf === undefined ? {} : { shelf }),
  });
};
deviceJobs.subscribe(work);

/**
 * What there is on this device for a book to stand on; the shop's sealed editions before what is kept under
 * their names.
 */
const atHand = (text: string): Promise<readonly string[]> =>
  booksAtHand(text, storage, () => Promise.resolve(sealed.books.flatMap((one) => [one.text, ...one.under])));

/** A book that came without the texts it stands on is read with those at hand now. */
const withShelf = async (book: KeptText | undefined): Promise<KeptText | undefined> =>
  book === undefined || book.under !== undefined ? book : { ...book, under: await atHand(book.text) };

/**
 * Of what is at hand, what the book stands on: that much belongs to its print. Undefined for a book that
 * names no other.
 */
async function groundOf(text: string): Promise<readonly string[] | undefined> {
  if (dependenciesOf(text).length === 0) return undefined;
  const texts = await atHand(text);
  return (await engine.ask((to) => to.ground(text, texts))) ?? texts;
}

/** The open job's own book and what was half typed in it. */
const takeUp = async (): Promise<void> => {
  const { id, book } = deviceJobs.state().open;
  const other =
    book === undefined || book.print === page.print
      ? undefined
      : { print: book.print, book: await withShelf(await bookOfJob(deviceJobs.shelf, book)) };
  const drafts = ((await deviceJobs.shelf?.note(`drafts ${id}`).catch(() => undefined)) ?? {}) as Drafts;
  set({ other, drafts });
  work();
};
const beginJob = (answers: Answers = {}): void => {
  deviceJobs.begin();
  deviceJobs.answer(answers);
  void takeUp();
};
const openJob = (id: string): void => {
  deviceJobs.openJob(id);
  void takeUp();
};
const giveDrafts = (drafts: Drafts): void => {
  set({ drafts });
  void deviceJobs.shelf?.setNote(`drafts ${deviceJobs.state().open.id}`, drafts).catch(() => undefined);
};
const giveUnits = (units: UnitSystem): void => {
  set({ units });
  void deviceJobs.shelf?.setNote("units", units).catch(() => undefined);
  work();
};

/** Works the maps and charts of the card, in the worker. */
const drawingsOf =
  (text: string, id: string, answers: Answers, units: UnitSystem): WorkDrawing =>
  (picture) =>
    engine.ask((to) => to.drawing(text, { id, answers }, picture, units));

const loadPanel = () => import("./record/panel.tsx");

function JobPage() {
  const { snapshot, units, drafts, trouble, other, choosing, key, news } = useSyncExternalStore(
    subscribe,
    () => page,
  );
  const say = useWords();
  const { open, jobs, delivery, unkept } = useSyncExternalStore(deviceJobs.subscribe, deviceJobs.state);
  const [slow, setSlow] = useState(false);
  useEffect(() => {
    const clock = setTimeout(() => setSlow(true), 1000);
    return () => clearTimeout(clock);
  }, []);
  // Reasons are asked for at the panel, where the network may be gone: what gives them is fetched once the
  // first question stands.
  useEffect(() => {
    if (snapshot !== undefined) void engine.ask((to) => to.getReady());
  }, [snapshot !== undefined]);
  const view = snapshot?.text === textOfJob() ? snapshot?.jobs[open.id] : undefined;
  const lost = other !== undefined && other.book === undefined;
  // What is done at the panel comes once the first question stands, and where no question can come.
  const panel = useLoaded(loadPanel, view !== undefined || lost);
  const bar = (
    <RecordBar
      open={open}
      jobs={jobs}
      delivery={delivery}
      unkept={unkept}
      List={panel?.JobList}
      onName={deviceJobs.name}
      onOpen={openJob}
      onBegin={() => beginJob()}
    />
  );
  const strip = panel && (
    <panel.TimerStrip
      jobs={jobs}
      open={open.id}
      onPutAway={(timer) => {
        if (!timer.signed) deviceJobs.addTo(timer.job, { does: "timer", timer: timer.timer });
      }}
    />
  );
  const troubleLine = trouble && (
    <p className="job-page-trouble" role="alert">
      {say(trouble.key, { reason: trouble.reason })}
    </p>
  );
  const fault = sealed.faulty[other?.print ?? page.print];
  const newsLine = news && (
    <p className="job-page-news no-print" role="status">
      <span>
        {say(!news.begun ? "page.sealed-now" : news.from === undefined ? "page.sealed" : "page.sealed-from", {
          edition: news.edition,
          from: news.from ?? "",
        })}
      </span>{" "}
      <button type="button" className="button" onClick={() => set({ news: undefined })}>
        {say("page.sealed-read")}
      </button>
    </p>
  );
  const faultLine = fault && (
    <p className="job-page-trouble">
      {say(fault.faults === 1 ? "page.sealed-faults" : "page.sealed-faults-many", {
        count: fault.faults,
        reason: fault.reason,
      })}
    </p>
  );
  if (choosing)
    return (
      <main className="job-page-books">
        <PageHead />
        {troubleLine}
        <ChooseBook
          key={sealed.books.map((book) => book.print).join()}
          books={() => jobBooks(storage, sealed.books)}
          now={key || undefined}
          onChoose={(book) => void take(book)}
          onBack={key === "" ? undefined : () => set({ choosing: false })}
        />
      </main>
    );
  if (lost)
    return (
      <main>
        {bar}
        {panel && <panel.WithoutBook record={open} shelf={deviceJobs.shelf} />}
        {strip}
      </main>
    );
  if (!snapshot || !view)
    return (
      <p className="job-page-wait" role="status">
        {trouble
          ? say(trouble.key, { reason: trouble.reason })
          : say(slow ? "page.still-reading" : "page.reading")}
      </p>
    );
  const faults = snapshot.findings.filter((finding) => finding.weight === "error").length;
  const text = snapshot.text;
  const signed = open.signed !== undefined;
  const cardNow = () => engine.ask((to) => to.cardRecord(text, { id: open.id, answers: open.answers }));
  return (
    <main className={signed ? "is-signed" : undefined}>
      <p className="job-page-first">{say("page.first")}</p>
      {troubleLine}
      {newsLine}
      {faultLine}
      {faults > 0 && (
        <p className="job-page-trouble" role="alert">
          {faults === 1 ? say("page.fault") : say("page.faults", { count: faults })}
        </p>
      )}
      {bar}
      {panel && signed && <panel.SignedHead record={open} onWork={cardNow} />}
      {panel && !signed && other && <panel.OtherBook onAnew={() => beginJob(open.answers)} />}
      <WorkDrawingContext.Provider value={drawingsOf(text, open.id, open.answers, units)}>
        <MeaningContext.Provider value={meaningsOf(snapshot.rows, snapshot.kinds)}>
          <JobScreen
            key={open.id}
            title={snapshot.title || snapshot.name}
            edition={snapshot.edition}
            under={snapshot.under.filter((one) => one.as === "amended")}
            asks={snapshot.asks}
            answers={open.answers}
            job={view}
            units={units}
            head={<PageHead units={units} onUnits={giveUnits} onBook={() => set({ choosing: true })} />}
            onAnswer={(name, given) => deviceJobs.answer(withAnswer(open.answers, name, given))}
            locked={signed}
            drafts={drafts}
            onDrafts={giveDrafts}
            ticked={open.ticked}
            onTicked={deviceJobs.tick}
            jobName={open.title || undefined}
            print={other?.print ?? page.print}
            besideStep={
              signed
                ? undefined
                : (step, place) => (
                    <StepWait
                      step={step}
                      place={place}
                      timers={open.timers}
                      onStart={(timer, says, ends) => deviceJobs.add({ does: "timer", timer, says, ends })}
                    />
                  )
            }
            onCard={panel && <panel.RecordOnCard record={open} />}
            signed={open.signed}
            proofs={signed ? undefined : snapshot.card}
            onCloseCalls={
              signed
                ? undefined
                : () => engine.ask((to) => to.closeCalls(text, { id: open.id, answers: open.answers }))
            }
            onWhy={(name, depth) =>
              engine.ask((to) =>
                to.why(text, { id: open.id, answers: open.answers }, name, depth ?? "deciding", units),
              )
            }
          />
        </MeaningContext.Provider>
      </WorkDrawingContext.Provider>
      {panel && (
        <panel.AtPanel
          key={`panel ${open.id}`}
          record={open}
          jobs={jobs}
          job={view}
          rows={snapshot.rows}
          desk={deviceJobs}
          onCard={cardNow}
        />
      )}
      {!signed && <NewJob onNew={() => beginJob()} />}
      {strip}
    </main>
  );
}

/** The whole page in the language that is set, its name in the browser included. */
function InLanguage() {
  const { language } = usePageSettings();
  const [say, setSay] = useState(() => wordsIn(language));
  // Until another language has come the page stays in the one it has.
  useEffect(() => {
    let wanted = true;
    // On the way to the first question the words of drawings come later, with what draws.
    const drawn = say === wordsIn(language) ? undefined : fetchDrawnWords(language);
    void Promise.all([fetchWords(language), drawn]).then(
      ([words]) => {
        if (wanted) setSay(() => words);
      },
      () => undefined,
    );
    return () => {
      wanted = false;
    };
  }, [language]);
  useEffect(() => {
    document.title = say("page.title");
  }, [say]);
  return (
    <WordsContext.Provider value={say}>
      <JobPage />
    </WordsContext.Provider>
  );
}

/** Pressed twice: a slip of the hand must not lead away from a job that is half done. */
function NewJob(props: { readonly onNew: () => void }) {
  const say = useWords();
  const [sure, setSure] = useState(false);
  return (
    <p className="job-page-next no-print">
      <button
        type="button"
        className="button"
        onBlur={() => setSure(false)}
        onClick={() => {
          if (sure) props.onNew();
          setSure(!sure);
        }}
      >
        {say(sure ? "record.begin-sure" : "page.new")}
      </button>
    </p>
  );
}

function withAnswer(answers: Answers, name: string, text: string | undefined): Answers {
  const rest = Object.fromEntries(Object.entries(answers).filter(([one]) => one !== name));
  return text === undefined || text === "" ? rest : { ...rest, [name]: text };
}

const root = document.getElementById("root");
if (root) createRoot(root).render(<InLanguage />);
// Not while it is developed, and not before the first screen stands: it loads every file of the page.
if (import.meta.env.PROD) void firstScreen().then(() => keepOffline(import.meta.url));

async function firstScreen(): Promise<void> {
  while (page.snapshot === undefined && page.choosing !== true && page.trouble === undefined)
    await new Promise<void>((resolve) => {
      const stop = subscribe(() => {
        stop();
        resolve();
      });
    });
}

/**
 * What the page holds of a book that jobs go by; a job that is begun from now on goes by it, also before it
 * has been read.
 */
async function goBy(book: JobBook): Promise<Pick<Page, "text" | "print" | "shelf">> {
  const { key, title, edition, text } = book;
  // A sealed edition stands on what it was sealed upon, and its sealing names that; with an unsealed book the
  // print names it.
  const sealed = book.from === "sealed";
  const shelf = sealed ? book.under : await groundOf(text);
  const print = await hashText(sealed ? text : bundled(text, shelf));
  deviceJobs.setBook(
    {
      print,
      name: headOf(text).name || key,
      title,
      ...(edition === undefined ? {} : { edition }),
      text,
      at: Date.now(),
      ...(shelf === undefined ? {} : { under: shelf }),
    },
    sealed,
  );
  return { text, print, shelf };
}

/** New jobs go by an edition as soon as it is sealed; the open one stays with its own. */
async function hearSealed(next: Sealed): Promise<void> {
  await keepSealed(deviceJobs.shelf, next);
  sealed = next;
  const book = next.books.find((one) => one.name === page.key);
  if (book === undefined) {
    set({});
    return;
  }
  const { open } = deviceJobs.state();
  // The very text that the page goes by already may have been sealed: that is no news, but jobs from now on
  // are by a sealed book.
  const news =
    book.print === page.print
      ? {}
      : { news: { edition: book.number, begun: open.book !== undefined, from: open.book?.edition } };
  set({
    ...(await goBy({
      key: book.name,
      title: book.title,
      edition: book.number,
      from: "sealed",
      text: book.text,
      under: book.under,
    })),
    ...news,
  });
  await takeUp();
}

/** Goes over to another book; a job that is half done stays with its own, and a new one begins. */
async function take(book: JobBook): Promise<void> {
  chooseBook(book.key);
  const begun = Object.keys(deviceJobs.state().open.answers).length > 0;
  const same = book.key === page.key && book.text === page.text;
  set({ choosing: false, key: book.key, ...(await goBy(book)) });
  if (begun && !same) beginJob();
  else await takeUp();
  await bringOver(book.key, book.text);
}

// The book of the page's address or of the last choice; else the only one; else the list of them.
const wish = chosenBook();
const wished = wish === undefined ? undefined : await jobBook(wish, storage, sealed.books);
const all = wished === undefined ? await jobBooks(storage, sealed.books) : [wished];
const [first] = all;
const units = (await deviceJobs.shelf?.note("units").catch(() => undefined)) as UnitSystem | undefined;
if (units !== undefined) set({ units });
if (first === undefined) set({ trouble: { key: "page.no-book", reason: "" } });
else if (all.length > 1) set({ choosing: true });
else {
  set({ key: first.key, ...(await goBy(first)) });
  if (wished !== undefined) chooseBook(wished.key);
  await takeUp();
  await bringOver(first.key, first.text);
}

// Not before the first screen stands.
void firstScreen()
  .then(() => import("./store/follow-sealed.ts"))
  .then(({ followSealed }) => followSealed(sealed, hearSealed))
  .catch(() => undefined);

/** Answers that an earlier version of this page kept by themselves become a job of their own, once. */
async function bringOver(key: string, text: string): Promise<void> {
  const before = await storage?.job(key);
  if (
    before === undefined ||
    Object.keys(before.answers).length === 0 ||
    deviceJobs.state().jobs.length > 0 ||
    deviceJobs.shelf === undefined
  )
    return;
  // The book's name is known once it has been read.
  while (page.snapshot?.text !== text)
    await new Promise<void>((resolve) => {
      const stop = subscribe(() => {
        stop();
        resolve();
      });
    });
  deviceJobs.answer(before.answers);
  deviceJobs.tick(before.ticked ?? {});
  giveDrafts(before.drafts ?? {});
  giveUnits(before.units);
  await storage?.putJob(key, { answers: {}, units: before.units });
}
