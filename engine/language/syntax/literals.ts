// Numbers as they are written: whole, decimal, a fraction, or a whole with a fraction.

/** `3`, `2.5`, `1/2` or `1 3/8` as one number. */
export function readNumber(image: string): number {
  const [whole, fraction] = image.includes(" ")
    ? (image.split(/ +/) as [string, string])
    : [undefined, image];
  const [top, bottom] = fraction.split("/");
  return Number(whole ?? 0) + Number(top) / Number(bottom ?? 1);
}
