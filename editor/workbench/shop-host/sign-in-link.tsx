// The ways from the bench to where people sign in, and back; and for who has signed in, to the own password
// and the people of the shop.
import type { Hello } from "../../../core/schemas/host.ts";
import "./shop-host.css";

export const SignInLink = () => (
  <a className="button main" href="/sign-in.html?back=%2F">
    Sign in
  </a>
);

/**
 * Nothing on a host that asks nobody: there the one person is its own desk, a name that nobody else can have.
 */
export function SignedInAs({ you }: { readonly you: Hello["you"] }) {
  if (you.name === "this desk") return null;
  return (
    <p className="signed-in-as">
      <span>
        You are {you.name}, {you.role}.
      </span>
      <a className="button" href="/sign-in.html">
        Sign out, change the password
      </a>
      {you.role === "lead" && (
        <a className="button" href="/people.html">
          People of the shop
        </a>
      )}
    </p>
  );
}
