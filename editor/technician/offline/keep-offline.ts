// Asks the browser to keep the technician's page for a day without a network. Where it cannot (an old
// browser, a page that did not come over a safe line) the page works as before, with a network.

/** `script` is the address of the page's own script, by which the waiting worker knows its build. */
export async function keepOffline(script: string): Promise<void> {
  if (!("serviceWorker" in navigator)) return;
  if (document.readyState !== "complete")
    await new Promise((resolve) => {
      addEventListener("load", resolve, { once: true });
    });
  try {
    const { waiting } = await navigator.serviceWorker.register(new URL("job-offline.js", document.baseURI));
    waiting?.postMessage({ script });
  } catch {
    // Nothing is lost but the day without a network.
  }
}
