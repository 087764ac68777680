// The sealed editions of a book, loaded while they are looked at and again whenever one is sealed.
import { useEffect, useState } from "react";
import type { EditionLine } from "../../../core/schemas/host.ts";
import type { Shop, ShopState } from "../store/shop.ts";

const atOnce = 500;

/** The newest first; undefined until they are loaded, or while the host does not tell. */
export function useEditions(
  shop: Shop,
  { host, sealings }: Pick<ShopState, "host" | "sealings">,
  book: string | undefined,
  looked: boolean,
): readonly EditionLine[] | undefined {
  const [loaded, setLoaded] = useState<{
    readonly book: string;
    readonly editions: readonly EditionLine[];
  }>();
  // biome-ignore lint/correctness/useExhaustiveDependencies: loads again after each sealing.
  useEffect(() => {
    if (!looked || host !== "there" || book === undefined || book === "") return undefined;
    let over = false;
    void (async () => {
      const editions: EditionLine[] = [];
      for (let more = true; more && !over; ) {
        const page = await shop.client.editions({ book, skip: editions.length, limit: atOnce });
        editions.push(...page.editions);
        more = page.more;
      }
      if (!over) setLoaded({ book, editions });
    })().catch(() => undefined);
    return () => {
      over = true;
    };
  }, [shop, host, sealings, book, looked]);
  return loaded?.book === book ? loaded?.editions : undefined;
}
