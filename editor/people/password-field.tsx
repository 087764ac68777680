// The field of a password, and the rule for a new one.
import { sayPeople as say } from "./asking.ts";

interface PasswordFieldProps {
  readonly name: string;
  readonly label: string;
  readonly autoComplete: "current-password" | "new-password";
  /** `PasswordRule` is drawn below it. */
  readonly hasRule?: boolean;
}

export function PasswordField({ name, label, autoComplete, hasRule }: PasswordFieldProps) {
  return (
    <label>
      <span className="label">{label}</span>
      <input
        className="field"
        name={name}
        type="password"
        autoComplete={autoComplete}
        required
        aria-describedby={hasRule ? "rule" : undefined}
      />
    </label>
  );
}

export function PasswordRule() {
  return (
    <p id="rule" className="people-soft">
      {say("sign.rule")}
    </p>
  );
}
