// Where the sign-in page leads on to.

/** Where to go on to: one of the host's own pages, whatever the address says. */
export function wayBack(search: string, otherwise: string): string {
  const wish = new URLSearchParams(search).get("back") ?? "";
  const known = ["/", "/index.html", "/job", "/job.html", "/people.html"];
  if (!/^\/(?![/\\])[\x21-\x7e]*$/.test(wish) || wish.includes("\\")) return otherwise;
  const url = new URL(wish, "http://here.invalid");
  return url.host === "here.invalid" && known.includes(url.pathname) ? url.pathname + url.search : otherwise;
}
