// Makes a photograph small enough to be kept and delivered: at most 2048 px on its longer side, as JPEG,
// without the place and the device that a camera writes into it; and a small one for the page.
import { hashBytes } from "../../client/storage/hash-text.ts";
import type { KeptPhoto } from "../store/record-storage.ts";

export const longestSide = 2048;
const thumbSide = 320;
/** Bytes of a file that is looked at at all, and of a photograph as it is kept. */
const largestFile = 60_000_000;
const largestPhoto = 3_000_000;
export const mostPhotos = 60;

export type Pictured = KeptPhoto | { readonly refused: "wrong" | "large" };

export async function pictureOf(file: Blob): Promise<Pictured> {
  if (file.size > largestFile) return { refused: "large" };
  let read: ImageBitmap;
  try {
    read = await createImageBitmap(file);
  } catch {
    return { refused: "wrong" };
  }
  try {
    let blob = await drawn(read, longestSide, 0.85);
    // A picture that will not pack well, e.g. of noise, is drawn coarser and then smaller.
    if (blob !== undefined && blob.size > largestPhoto) blob = await drawn(read, longestSide, 0.6);
    if (blob !== undefined && blob.size > largestPhoto) blob = await drawn(read, longestSide / 2, 0.6);
    const small = await drawn(read, thumbSide, 0.75);
    if (blob === undefined || small === undefined) return { refused: "wrong" };
    if (blob.size > largestPhoto) return { refused: "large" };
    return { photo: await hashBytes(new Uint8Array(await blob.arrayBuffer())), blob, small };
  } finally {
    read.close();
  }
}

/** Width and height with the longer side at most `longest`, never enlarged. */
export function fitted(
  width: number,
  height: number,
  longest: number,
): { readonly width: number; readonly height: number } {
  const by = Math.min(1, longest / Math.max(width, height));
  return { width: Math.max(1, Math.round(width * by)), height: Math.max(1, Math.round(height * by)) };
}

async function drawn(read: ImageBitmap, longest: number, quality: number): Promise<Blob | undefined> {
  const { width, height } = fitted(read.width, read.height, longest);
  const canvas = document.createElement("canvas");
  canvas.width = width;
  canvas.height = height;
  const pen = canvas.getContext("2d");
  if (pen === null) return undefined;
  pen.fillStyle = "#fff";
  pen.fillRect(0, 0, width, height);
  pen.imageSmoothingQuality = "high";
  pen.drawImage(read, 0, 0, width, height);
  return (
    (await new Promise<Blob | null>((resolve) => {
      canvas.toBlob(resolve, "image/jpeg", quality);
    })) ?? undefined
  );
}

/** A picture as an address for the page; the content policy allows no others of the page's own making. */
export function addressOf(blob: Blob): Promise<string> {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(String(reader.result));
    reader.onerror = () => reject(new Error("The picture could not be read."));
    reader.readAsDataURL(blob);
  });
}
