// Whether a picture tells where it was taken. The job page leaves the place out as it makes pictures smaller;
// what comes from elsewhere with a place in it is not kept.

/** What data about a picture begins with, in each kind of file (CIPA DC-008, 4.7; ISO 16684-1; RFC 9649). */
const marks = ["Exif\0", "eXIf", "EXIF", "http://ns.adobe.com/xap/", "XMP ", "XML:com.adobe.xmp"];

export async function tellsPlace(bytes: Uint8Array): Promise<boolean> {
  const buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (!marks.some((mark) => buffer.includes(mark, 0, "latin1"))) return false;
  if (buffer.includes("exif:GPS", 0, "latin1")) return true;
  const { load } = await import("exifreader");
  try {
    const tags = load(buffer, { includeUnknown: true });
    return Object.keys(tags).some((name) => name.startsWith("GPS"));
  } catch (cause) {
    // No data about the picture after all. What cannot be read may hold anything.
    return !(cause instanceof Error && cause.name === "MetadataMissingError");
  }
}
