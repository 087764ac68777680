// The controller of the job page: opens and begins jobs, takes other books and newly sealed editions, and
// asks the engine for the open job. Knows nothing of how any of it is drawn.
import { bundled } from "../../../engine/index.ts";
import type { Answers, UnitSystem } from "../../../core/view.ts";
import type { Drafts } from "../../card/answer-drafts.ts";
import type { EngineClient } from "../../client/engine/client.ts";
import type { JobPageCalls } from "../../client/engine/messages.ts";
import type { BrowserStorage } from "../../client/storage/browser-storage.ts";
import { hashText } from "../../client/storage/hash-text.ts";
import type { DeviceJobs } from "../store/device-jobs.ts";
import { bookOfJob } from "../store/device-jobs.ts";
import type { JobBook } from "../store/job-books.ts";
import { chooseBook, chosenBook, headOf, jobBook, jobBooks } from "../store/job-books.ts";
import type { Sealed, SealedBook } from "../store/sealed-books.ts";
import { keepSealed } from "../store/sealed-books.ts";
import type { BookSources } from "./book-texts.ts";
import { dependencyTexts, withDependencies } from "./book-texts.ts";
import type { PageState } from "./page-state.ts";
import { newsOf, requestFor } from "./page-state.ts";
import type { Store } from "./store.ts";
import { until } from "./store.ts";

export interface SessionParts {
  readonly page: Store<PageState>;
  readonly engine: EngineClient<JobPageCalls>;
  readonly jobs: DeviceJobs;
  /** Undefined where the browser keeps nothing. */
  readonly storage: BrowserStorage | undefined;
}

export class JobSession {
  readonly page: Store<PageState>;
  readonly engine: EngineClient<JobPageCalls>;
  readonly jobs: DeviceJobs;
  readonly #storage: BrowserStorage | undefined;
  readonly #sources: BookSources;
  /** The last request to the engine, so that an equal one is not sent again. */
  #asked = "";

  constructor({ page, engine, jobs, storage }: SessionParts) {
    this.page = page;
    this.engine = engine;
    this.jobs = jobs;
    this.#storage = storage;
    this.#sources = { engine, storage, sealed: () => page.get().sealed };
    jobs.subscribe(() => this.#evaluate());
  }

  /** Takes the book of the page's address or of the last choice, else the only one; else shows the list. */
  async start(): Promise<void> {
    const key = chosenBook();
    const sealed = this.page.get().sealed.books;
    const wished = key === undefined ? undefined : await jobBook(key, this.#storage, sealed);
    const all = wished === undefined ? await jobBooks(this.#storage, sealed) : [wished];
    const [first] = all;
    const units = (await this.#note("units")) as UnitSystem | undefined;
    if (units !== undefined) this.page.set({ units });
    if (first === undefined) this.page.set({ trouble: { key: "page.no-book", reason: "" } });
    else if (all.length > 1) this.page.set({ choosing: true });
    else {
      this.page.set({ key: first.key, ...(await this.#setBookOfNewJobs(first)) });
      if (wished !== undefined) chooseBook(wished.key);
      await this.#takeUpOpenJob();
      await this.#importAnswersOfOldPage(first);
    }
  }

  readonly beginJob = (answers: Answers = {}): void => {
    this.jobs.begin();
    this.jobs.answer(answers);
    void this.#takeUpOpenJob();
  };

  readonly openJob = (id: string): void => {
    this.jobs.openJob(id);
    void this.#takeUpOpenJob();
  };

  readonly setDrafts = (drafts: Drafts): void => {
    this.page.set({ drafts });
    this.#setNote(`drafts ${this.jobs.state().open.id}`, drafts);
  };

  readonly setUnits = (units: UnitSystem): void => {
    this.page.set({ units });
    this.#setNote("units", units);
    this.#evaluate();
  };

  /** All books that a job can be begun by. */
  readonly books = (): Promise<readonly JobBook[]> => jobBooks(this.#storage, this.page.get().sealed.books);

  /** Changes to another book. A job that is begun stays with its own book, and a new one begins. */
  async takeBook(book: JobBook): Promise<void> {
    chooseBook(book.key);
    const begun = Object.keys(this.jobs.state().open.answers).length > 0;
    const { key, text } = this.page.get();
    const same = book.key === key && book.text === text;
    this.page.set({ choosing: false, key: book.key, ...(await this.#setBookOfNewJobs(book)) });
    if (begun && !same) this.beginJob();
    else await this.#takeUpOpenJob();
    await this.#importAnswersOfOldPage(book);
  }

  /** New jobs are by an edition as soon as it is sealed; the open one stays with its own book. */
  readonly takeSealed = async (sealed: Sealed): Promise<void> => {
    await keepSealed(this.jobs.shelf, sealed);
    this.page.set({ sealed });
    const book = sealed.books.find((one) => one.name === this.page.get().key);
    if (book === undefined) return;
    const news = newsOf(book, this.page.get(), this.jobs.state().open);
    this.page.set({
      ...(await this.#setBookOfNewJobs(jobBookOf(book))),
      ...(news === undefined ? {} : { news }),
    });
    await this.#takeUpOpenJob();
  };

  /** Asks the engine for the open job where something that counts has changed. */
  #evaluate(): void {
    const request = requestFor(this.page.get(), this.jobs.state().open);
    if (request === undefined || request.sameAs === this.#asked) return;
    this.#asked = request.sameAs;
    this.engine.show(request.wanted);
  }

  /** Looks up the open job's own book and what was half typed in it. */
  async #takeUpOpenJob(): Promise<void> {
    const { id, book } = this.jobs.state().open;
    const other =
      book === undefined || book.print === this.page.get().print
        ? undefined
        : {
            print: book.print,
            book: await withDependencies(await bookOfJob(this.jobs.shelf, book), this.#sources),
          };
    const drafts = ((await this.#note(`drafts ${id}`)) ?? {}) as Drafts;
    this.page.set({ other, drafts });
    this.#evaluate();
  }

  /** Jobs begun from now on are by this book, also before it has been read. */
  async #setBookOfNewJobs(book: JobBook): Promise<Pick<PageState, "text" | "print" | "shelf">> {
    const { key, title, edition, text } = book;
    // Sealing names what a sealed edition depends on. An unsealed book is named by a hash that includes it.
    const sealed = book.from === "sealed";
    const shelf = sealed ? book.under : await dependencyTexts(text, this.#sources);
    const print = await hashText(sealed ? text : bundled(text, shelf));
    this.jobs.setBook(
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

  /** Answers that an earlier version of this page kept by themselves become a job of their own, once. */
  async #importAnswersOfOldPage({ key, text }: JobBook): Promise<void> {
    const before = await this.#storage?.job(key);
    if (before === undefined || Object.keys(before.answers).length === 0) return;
    if (this.jobs.state().jobs.length > 0 || this.jobs.shelf === undefined) return;
    // The book's name is known once it has been read.
    await until(this.page, (page) => page.snapshot?.text === text);
    this.jobs.answer(before.answers);
    this.jobs.tick(before.ticked ?? {});
    this.setDrafts(before.drafts ?? {});
    this.setUnits(before.units);
    await this.#storage?.putJob(key, { answers: {}, units: before.units });
  }

  async #note(name: string): Promise<unknown> {
    return this.jobs.shelf?.note(name).catch(() => undefined);
  }

  /** The page works on where the browser keeps nothing. */
  #setNote(name: string, value: unknown): void {
    void this.jobs.shelf?.setNote(name, value).catch(() => undefined);
  }
}

const jobBookOf = (book: SealedBook): JobBook => ({
  key: book.name,
  title: book.title,
  edition: book.number,
  from: "sealed",
  text: book.text,
  under: book.under,
});
