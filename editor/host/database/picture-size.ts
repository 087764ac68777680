// How wide and high a picture says that it is, from its head, so that one that would fill the memory of
// whoever opens it is not kept. JPEG: ITU-T T.81, B.2.2; PNG: ISO/IEC 15948, 11.2.1; WebP: RFC 9649, 2.5 to
// 2.7.

export interface PictureSize {
  readonly width: number;
  readonly height: number;
}

/** Undefined where the head cannot be read: the picture is damaged. */
export function pictureSize(
  type: "image/jpeg" | "image/png" | "image/webp",
  bytes: Uint8Array,
): PictureSize | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  try {
    switch (type) {
      case "image/png":
        return word(view, 12) === "IHDR"
          ? { width: view.getUint32(16), height: view.getUint32(20) }
          : undefined;
      case "image/webp":
        return webp(view);
      case "image/jpeg":
        return jpeg(view);
    }
  } catch (cause) {
    // Ends in the middle of its head.
    if (cause instanceof RangeError) return undefined;
    throw cause;
  }
}

const word = (view: DataView, at: number): string =>
  String.fromCharCode(view.getUint8(at), view.getUint8(at + 1), view.getUint8(at + 2), view.getUint8(at + 3));
const three = (view: DataView, at: number): number =>
  view.getUint16(at, true) + view.getUint8(at + 2) * 65_536;

function webp(view: DataView): PictureSize | undefined {
  switch (word(view, 12)) {
    case "VP8X":
      return { width: three(view, 24) + 1, height: three(view, 27) + 1 };
    case "VP8L": {
      const bits = view.getUint32(21, true);
      return view.getUint8(20) === 0x2f
        ? { width: (bits & 0x3fff) + 1, height: ((bits >>> 14) & 0x3fff) + 1 }
        : undefined;
    }
    case "VP8 ":
      return three(view, 23) === 0x2a019d
        ? { width: view.getUint16(26, true) & 0x3fff, height: view.getUint16(28, true) & 0x3fff }
        : undefined;
    default:
      return undefined;
  }
}

function jpeg(view: DataView): PictureSize | undefined {
  for (let at = 2; ; ) {
    if (view.getUint8(at) !== 0xff) return undefined;
    const mark = view.getUint8(at + 1);
    if (mark === 0xff) {
      at += 1;
      continue;
    }
    if (mark >= 0xc0 && mark <= 0xcf && mark !== 0xc4 && mark !== 0xc8 && mark !== 0xcc)
      return { height: view.getUint16(at + 5), width: view.getUint16(at + 7) };
    // The picture itself begins, or the file ends, without a word of its size.
    if (mark === 0xda || mark === 0xd9) return undefined;
    at += 2 + view.getUint16(at + 2);
  }
}
