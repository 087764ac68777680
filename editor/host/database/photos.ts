// Photographs by the content hash of their bytes: kept once, however often they are delivered.
import type { PhotoKept } from "../../../core/schemas/host.ts";
import { MAX_PHOTO_BYTES } from "../../../core/limits.ts";
import { sha256 } from "./log-chain.ts";
import { pictureSize } from "./picture-size.ts";
import { tellsPlace } from "./picture-place.ts";
import { pictureType } from "./picture-type.ts";
import type { Database } from "./database.ts";
import { Trouble } from "../trouble.ts";

/**
 * The job page makes pictures smaller than this. A picture of a few bytes can say of itself that it fills the
 * memory of whoever opens it: each pixel takes four bytes there.
 */
const mostPixels = 25_000_000;
const mostSide = 10_000;

export async function keepPhoto(
  database: Database,
  who: string,
  print: string,
  bytes: Uint8Array,
): Promise<PhotoKept> {
  if (bytes.length > MAX_PHOTO_BYTES)
    throw new Trouble(413, "A photograph has at most 20 MB. This one was not kept.");
  const type = pictureType(bytes);
  if (type === undefined)
    throw new Trouble(422, "This is no photograph of a kind that is kept (JPEG, PNG or WebP).");
  if (sha256(bytes) !== print)
    throw new Trouble(
      422,
      "The photograph came over damaged: its bytes are not those that its name stands for. Send it again.",
    );
  const size = pictureSize(type, bytes);
  if (size === undefined || size.width < 1 || size.height < 1)
    throw new Trouble(422, "The photograph is damaged: its head does not say how large it is.");
  if (size.width > mostSide || size.height > mostSide || size.width * size.height > mostPixels)
    throw new Trouble(
      422,
      `A photograph has at most ${mostPixels / 1e6} million pixels and ${mostSide} to a side. ` +
        "This one was not kept.",
    );
  if (await tellsPlace(bytes))
    throw new Trouble(
      422,
      "The photograph tells where it was taken. Take the place out of it and send it again; " +
        "the job page does so by itself.",
    );
  return database.write(who, async (tx, log, at) => {
    const known =
      (await tx.selectFrom("photos").select("print").where("print", "=", print).executeTakeFirst()) !==
      undefined;
    if (!known) {
      await tx
        .insertInto("photos")
        .values({ print, type, bytes: bytes.length, who, at, content: Buffer.from(bytes) })
        .execute();
      await log("photo", { photo: print, bytes: bytes.length });
    }
    return { photo: print, bytes: bytes.length, known };
  });
}

export const photoOf = (database: Database, print: string) =>
  database.db.selectFrom("photos").select(["type", "content"]).where("print", "=", print).executeTakeFirst();

/** Of these content hashes, the ones that nobody has delivered. */
export async function missingPhotos(database: Database, hashes: readonly string[]): Promise<string[]> {
  const here = new Set<string>();
  // A statement takes a limited number of values.
  for (let i = 0; i < hashes.length; i += 500) {
    const rows = await database.db
      .selectFrom("photos")
      .select("print")
      .where("print", "in", hashes.slice(i, i + 500))
      .execute();
    for (const { print } of rows) here.add(print);
  }
  return hashes.filter((print) => !here.has(print));
}
