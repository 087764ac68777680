// What the keys do, from the same records that the key listeners read.
import { commands } from "../commands.ts";
import { cellKeys } from "../sheet/sheet-keys.ts";
import { textKeys, typingKeys } from "../text/editor-keys.ts";

export function HelpPanel() {
  return (
    <div className="help-side">
      <p>
        Each line of the sheet is a statement of the book; each hanging tag is a job. Change a rule and every
        value that changes shows what it was and what it is, until you accept the change.
      </p>
      <p>
        The tool works out what the book says. The material’s own label, local codes and licensed practice
        come first.
      </p>
      <Keys heading="Anywhere" keys={commands} />
      <Keys heading="Over the cells of the sheet" keys={cellKeys} />
      <Keys
        heading="In the text"
        keys={[...textKeys.map(({ keys, says }) => ({ keys, says: says.toLowerCase() })), ...typingKeys]}
      />
    </div>
  );
}

function Keys(props: {
  readonly heading: string;
  readonly keys: readonly { readonly keys: string; readonly says: string }[];
}) {
  return (
    <section>
      <h3 className="label">{props.heading}</h3>
      <dl className="key-list">
        {props.keys.map((one) => (
          <div key={one.says}>
            <dt>
              <kbd>{one.keys}</kbd>
            </dt>
            <dd>{one.says}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
