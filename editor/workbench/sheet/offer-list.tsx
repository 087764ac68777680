// The words offered below a field that is being typed into. A press takes one without taking the focus.
import { fitOffers } from "./fit-offers.ts";

export interface Offer {
  readonly word: string;
  readonly means: string;
}

export function OfferList(props: {
  readonly id: string;
  readonly label: string;
  readonly offers: readonly Offer[];
  /** Index of the one that the keys have chosen, -1 for none. */
  readonly chosen: number;
  readonly onTake: (index: number) => void;
}) {
  if (props.offers.length === 0) return null;
  return (
    <ul className="offers" ref={fitOffers} id={props.id} role="listbox" aria-label={props.label}>
      {props.offers.map((offer, index) => (
        <li
          key={offer.word}
          id={offerId(props.id, index)}
          role="option"
          aria-selected={index === props.chosen}
          onMouseDown={(event) => {
            event.preventDefault();
            props.onTake(index);
          }}
        >
          <b>{offer.word}</b>
          <span>{offer.means}</span>
        </li>
      ))}
    </ul>
  );
}

export const offerId = (list: string, index: number): string => `${list}-${index}`;
