// A text that begins a sentence.

/** The text with its first letter as a capital; "" stays "". */
export const capitalise = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
