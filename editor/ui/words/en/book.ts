// English words of choosing a book. `{name}` stands for a fact.
export const enBook = {
  "book.heading": "Which book does this job go by?",
  "book.all": "Books on this device",
  "book.now": "in use now",
  "book.yours": "kept in this browser",
  "book.sealed": "sealed by the shop",
  "book.shipped": "comes with the program",
  "book.change": "Another book",
  "book.edition": "edition {edition}",
  "book.looking": "Looking for the books…",
  "book.back": "Stay with this book",
} as const;
