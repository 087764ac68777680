// What a person typed to search for, as patterns of SQL's `like`.

/** Words looked for; more are left out. */
const mostWords = 10;

/** One pattern for each word, in lower case; \ is the escape. */
export const searchPatterns = (search = ""): readonly string[] =>
  search
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== "")
    .slice(0, mostWords)
    .map((word) => `%${word.replace(/[\\%_]/g, "\\$&")}%`);
