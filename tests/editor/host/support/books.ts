// Small books for the tests of the host.

export interface Wanted {
  readonly edition?: number /** Mm of bevel to a mm of thickness. */;
  readonly taper?: number /** What the worked example says of 3 mm, in mm. */;
  readonly says?: number /** The promise's limit, in mm. */;
  readonly limit?: number;
  readonly more?: string;
}

/**
 * A bevel by thickness, from 2 to 8 mm. It is proved unless an example or a limit is asked for that does not
 * fit.
 */
export const smallBook = ({
  edition = 1,
  taper = 20,
  says = 3 * taper,
  limit = 200,
  more = "",
}: Wanted = {}): string => `book small-panels, edition ${edition}
    "Small panels"

dial house-taper = 1:${taper}
    "Taper of the bevel"
    because "What this shop grinds"
    from practice

ask thickness in mm, 2 to 8
    "How thick is the laminate?"

figure bevel in mm = thickness run out at house-taper
    because "The taper of the house"
    from practice

step grind "Grind a bevel of {bevel}"
    takes 20 min
    because "The bond needs its length"
    from practice

worked thin "A thin laminate"
    with thickness 3 mm
    gives bevel ${says} mm
    from practice

promise bevel <= ${limit} mm
    because "No more than this is ground"
${more}`;
