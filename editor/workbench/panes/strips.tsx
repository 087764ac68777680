// The strips above the views: another tab has the book, nobody is signed in at the host, the draft is shared.
import type { Workbench } from "../controller/use-workbench.ts";
import { DraftStrip } from "../shop-host/draft-strip.tsx";
import { SignInLink } from "../shop-host/sign-in-link.tsx";

export function Strips({ bench }: { readonly bench: Workbench }) {
  const { store, state, host, shop, panel } = bench;
  return (
    <>
      {!state.mine && (
        <div className="strip" role="status">
          <span>This book is being edited in another tab of this browser. Here it can only be read.</span>
          <button type="button" className="button main" onClick={() => void store.takeOver()}>
            Edit it here instead
          </button>
        </div>
      )}
      {(host.host === "refused" || host.draft?.is === "signed-out") && (
        <div className="strip" role="alert">
          <span>
            You are not signed in at the shop’s host. What you type is kept in this browser, and saved there
            once you have signed in.
          </span>
          <SignInLink />
        </div>
      )}
      {host.draft && (
        <DraftStrip
          draft={host.draft}
          you={host.you?.name ?? ""}
          onClash={() => panel.show({ is: "clash" })}
          onGoOn={shop.goOnWith}
          onAgain={shop.again}
        />
      )}
    </>
  );
}
