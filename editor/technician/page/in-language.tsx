// Draws the page in the language that is set, its name in the browser included.
import { useEffect, useState } from "react";
import type { ReactNode } from "react";
import { usePageSettings } from "../../ui/words/page-settings.ts";
import { WordsContext, fetchLateWords, fetchWords, wordsIn } from "../../ui/words/words.ts";

export function InLanguage({ children }: { readonly children: ReactNode }) {
  const { language } = usePageSettings();
  const [say, setSay] = useState(() => wordsIn(language));
  // The page stays in its language until the words of another one have been fetched.
  useEffect(() => {
    let wanted = true;
    // On the way to the first question the words of drawings and of the panel come later, with those.
    const late = say === wordsIn(language) ? undefined : fetchLateWords(language);
    void Promise.all([fetchWords(language), late]).then(
      ([words]) => {
        if (wanted) setSay(() => words);
      },
      () => undefined,
    );
    return () => {
      wanted = false;
    };
  }, [language, say]);
  useEffect(() => {
    document.title = say("page.title");
  }, [say]);
  return <WordsContext.Provider value={say}>{children}</WordsContext.Provider>;
}
