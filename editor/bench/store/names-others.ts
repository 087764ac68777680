// Whether a text uses or amends another book, seen without reading it.
export const namesOthers = (text: string): boolean => /^(?:use\s|book\s[^\n]*\bamends\b)/m.test(text);
