// The photographs of a job: taken with the camera or chosen, told whether before or after, with words
// beneath, and taken away again.
import { useEffect, useState } from "react";
import type { Deed, PhotoLine, PhotoShows } from "../../../core/record.ts";
import { PickOne } from "../../ui/parts/pick-one.tsx";
import type { KeptPhoto, RecordStorage } from "../store/record-storage.ts";
import { useWords } from "../../ui/words/words.ts";
import type { Say } from "../../ui/words/words.ts";
import { addressOf, mostPhotos, pictureOf } from "./photo-files.ts";

type Entered = Omit<Extract<Deed, { does: "photo" }>, "does" | "photo">;

export interface PhotosProps {
  readonly photos: readonly PhotoLine[];
  readonly shelf: RecordStorage | undefined;
  readonly locked: boolean;
  readonly onAdd: (photo: KeptPhoto, more: Entered) => Promise<void>;
  /** The same photograph with other words, or without a type to take it away. */
  readonly onEnter: (photo: string, more: Entered) => void;
}

const shown: readonly PhotoShows[] = ["before", "during", "after"];
const showsWord = (say: Say, shows: PhotoShows): string => {
  switch (shows) {
    case "before":
      return say("record.photo-before");
    case "during":
      return say("record.photo-during");
    case "after":
      return say("record.photo-after");
  }
};

export function Photos({ photos, shelf: storage, locked, onAdd, onEnter }: PhotosProps) {
  const say = useWords();
  const [shows, setShows] = useState<PhotoShows>(photos.length === 0 ? "before" : "after");
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<string>();
  const take = async (input: HTMLInputElement): Promise<void> => {
    const files = [...(input.files ?? [])];
    setTrouble(undefined);
    setBusy(true);
    let count = photos.length;
    for (const file of files) {
      if (count >= mostPhotos) {
        setTrouble(say("record.photo-many", { count: mostPhotos }));
        break;
      }
      const made = await pictureOf(file);
      if ("refused" in made) {
        setTrouble(
          say(made.refused === "wrong" ? "record.photo-wrong" : "record.photo-large", { name: file.name }),
        );
        continue;
      }
      await onAdd(made, { type: "image/jpeg", bytes: made.blob.size, shows });
      count += 1;
    }
    input.value = "";
    setBusy(false);
  };
  if (locked && photos.length === 0) return null;
  return (
    <section className="panel-part no-print" aria-labelledby="photos-heading">
      <h3 id="photos-heading">{say("record.photos")}</h3>
      {!locked && (
        <>
          <p className="panel-hint">{say("record.photos-hint")}</p>
          <div className="panel-row">
            <PickOne
              legend={say("record.photo-shows")}
              value={shows}
              onPick={setShows}
              options={shown.map((value) => ({ value, says: showsWord(say, value) }))}
            />
            <PickFile says={say("record.photo-take")} capture busy={busy} onPick={take} />
            <PickFile says={say("record.photo-choose")} busy={busy} onPick={take} />
          </div>
          {busy && <p role="status">{say("record.photo-busy")}</p>}
          {trouble && (
            <p className="panel-wrong" role="alert">
              {trouble}
            </p>
          )}
        </>
      )}
      <ul className="photo-rows">
        {photos.map((photo) => (
          <Photo key={photo.photo} photo={photo} shelf={storage} locked={locked} onEnter={onEnter} />
        ))}
      </ul>
    </section>
  );
}

/** A file field that looks like a button; with `capture` a tablet opens its camera. */
function PickFile({
  says,
  capture,
  busy,
  onPick,
}: {
  readonly says: string;
  readonly capture?: boolean;
  readonly busy: boolean;
  readonly onPick: (input: HTMLInputElement) => Promise<void>;
}) {
  return (
    <label className="button pick-file">
      <input
        type="file"
        accept="image/*"
        disabled={busy}
        aria-label={says}
        {...(capture ? { capture: "environment" as const } : { multiple: true })}
        onChange={(event) => void onPick(event.currentTarget)}
      />
      {says}
    </label>
  );
}

function Photo({
  photo,
  shelf: storage,
  locked,
  onEnter,
}: {
  readonly photo: PhotoLine;
  readonly shelf: RecordStorage | undefined;
  readonly locked: boolean;
  readonly onEnter: PhotosProps["onEnter"];
}) {
  const say = useWords();
  const [address, setAddress] = useState<string | null>();
  const [caption, setCaption] = useState(photo.caption);
  useEffect(() => {
    let gone = false;
    const read = async (): Promise<string | null> => {
      const kept = await storage?.photo(photo.photo);
      return kept === undefined ? null : addressOf(kept.small ?? kept.blob);
    };
    read().then(
      (is) => {
        if (!gone) setAddress(is);
      },
      () => {
        if (!gone) setAddress(null);
      },
    );
    return () => {
      gone = true;
    };
  }, [photo.photo, storage]);
  const shows = photo.shows === undefined ? "" : showsWord(say, photo.shows);
  const same: Entered = {
    type: photo.type,
    bytes: photo.bytes,
    ...(photo.shows === undefined ? {} : { shows: photo.shows }),
  };
  const enter = (): void => {
    if (caption.trim() !== photo.caption) onEnter(photo.photo, { ...same, caption: caption.trim() });
  };
  return (
    <li className="photo-row">
      {address === null ? (
        <p className="photo-missing">{say("record.photo-missing")}</p>
      ) : (
        <img src={address} alt={say("record.photo-alt", { shows, caption: photo.caption })} />
      )}
      <p>
        <b>{shows}</b>
        {locked && photo.caption !== "" && ` ${photo.caption}`}
      </p>
      {!locked && (
        <>
          <label>
            <span className="label">{say("record.photo-caption")}</span>
            <input
              className="field"
              value={caption}
              maxLength={500}
              onChange={(event) => setCaption(event.currentTarget.value)}
              onBlur={enter}
            />
          </label>
          <button type="button" className="button" onClick={() => onEnter(photo.photo, {})}>
            {say("record.remove")}
            <span className="out-of-sight">
              : {shows} {photo.caption}
            </span>
          </button>
        </>
      )}
    </li>
  );
}
