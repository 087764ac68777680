// What to measure: a panel with a hole, and the one place that a question is about marked in the accent. It
// is a sign, not to scale.
import {
  type Drawn,
  type Mark,
  type Point,
  area,
  box,
  breakLine,
  dimensionLine,
  line,
  oval,
  text,
} from "./marks.ts";
import { askPlace, askWidth } from "./ask-places.ts";
import type { Sheet } from "./paper.ts";

/** The panel from the side lies between these, mm on the sheet. */
const [TOP, FOOT] = [14, 24];

/** Anything but a place that can be shown has no drawing. */
export function drawAsk(place: string | undefined, { say }: Sheet): Drawn | undefined {
  const shown = askPlace(place);
  return (
    shown && {
      width: askWidth,
      height: shown.height,
      marks: marksOf(place),
      notes: [],
      describes: [say(shown.says)],
    }
  );
}

function marksOf(place: string | undefined): readonly Mark[] {
  switch (place) {
    case "thickness":
      return [...section(true), ...caliper(13)];
    case "depth":
      return [...section(false), ...depthGauge(44, 20)];
    case "run":
      return [
        ...section(true),
        line(
          [
            [38, FOOT],
            [38, 8.5],
          ],
          "hair",
        ),
        ...measured(22, 38, 10),
      ];
    case "gap":
      return [...gap(), ...measured(40, 48, 10)];
    case "hole-long":
      return [...plan(84), ...measuredFrom(27, 61, 7, 20)];
    case "hole-short":
      return [
        ...plan(84),
        ...[10, 30].map((y) =>
          line(
            [
              [44, y],
              [73.5, y],
            ],
            "accent",
          ),
        ),
        ...dimensionLine(10, 30, 72, "y").map(accented),
      ];
    case "edge-distance":
      return [
        ...plan(74, 32),
        line(
          [
            [74, 2],
            [74, 38],
          ],
          "outline",
        ),
        line(
          [
            [75.2, 2],
            [75.2, 38],
          ],
          "hair",
        ),
        ...measuredFrom(49, 74, 34.5, 20),
      ];
    case "temperature":
      return [...section(true), ...probe(70)];
    default:
      return [];
  }
}

/** From the side: the cut with its bevels, through or not. */
function section(through: boolean): readonly Mark[] {
  const cut = through ? FOOT : 20;
  return [-1, 1].flatMap((side) => {
    const at = (from: number) => 44 + side * from;
    const end = at(40);
    const [upper, lower]: [readonly Point[], readonly Point[]] = through
      ? [
          [
            [end, TOP],
            [at(22), TOP],
            [at(6), cut],
          ],
          [
            [at(6), FOOT],
            [end, FOOT],
          ],
        ]
      : [
          [
            [end, TOP],
            [at(16), TOP],
            [at(6), cut],
            [44, cut],
          ],
          [
            [44, FOOT],
            [end, FOOT],
          ],
        ];
    return [
      area([...upper, ...lower, ...brokenEnd(end)], "panel", "none"),
      line(through ? [...upper, ...lower] : upper, "outline"),
      ...(through ? [] : [line(lower, "outline")]),
      line(breakLine(end, TOP, FOOT), "hair"),
    ];
  });
}

const brokenEnd = (end: number): readonly Point[] => [...breakLine(end, TOP, FOOT, 0)].reverse();

/** Two parts with a joint between them. */
const gap = (): readonly Mark[] =>
  [
    [4, 40],
    [84, 48],
  ].flatMap(([end, edge]) => {
    const shape: readonly Point[] = [
      [end!, TOP],
      [edge!, TOP],
      [edge!, FOOT],
      [end!, FOOT],
    ];
    return [
      area([...shape, ...brokenEnd(end!)], "panel", "none"),
      line(shape, "outline"),
      line(breakLine(end!, TOP, FOOT), "hair"),
    ];
  });

/** From above: the panel with an oval of damage. */
const plan = (right: number, x = 44): readonly Mark[] => [
  line(
    [
      [4, 3],
      [right, 3],
    ],
    "hair",
  ),
  line(
    [
      [4, 37],
      [right, 37],
    ],
    "hair",
  ),
  ...[4, ...(right === 84 ? [84] : [])].map((end) => line(breakLine(end, 3, 37), "hair")),
  oval([x, 20], [17, 10], "void", "outline"),
];

/** A length along, with its extension lines down to the face. */
const measured = (from: number, to: number, at: number): readonly Mark[] => [
  ...[from, to].map((x) =>
    line(
      [
        [x, TOP],
        [x, at - 1.5],
      ],
      "accent",
    ),
  ),
  ...dimensionLine(from, to, at, "x").map(accented),
];

/** The same with extension lines from `level`. */
const measuredFrom = (from: number, to: number, at: number, level: number): readonly Mark[] => [
  ...[from, to].map((x) =>
    line(
      [
        [x, level],
        [x, at + (at < level ? -1.5 : 1.5)],
      ],
      "accent",
    ),
  ),
  ...dimensionLine(from, to, at, "x").map(accented),
];

/** A bow over the edge of the panel with its two jaws on the faces. */
function caliper(x: number): readonly Mark[] {
  const jaw = (at: number, way: number): Mark =>
    area(
      [
        [x - 1.1, at],
        [x + 1.1, at],
        [x + 1.1, at + way * 3.6],
        [x - 1.1, at + way * 3.6],
      ],
      "paper",
      "accent",
    );
  return [
    jaw(TOP, -1),
    jaw(FOOT, 1),
    line(
      [
        [x, TOP - 3.6],
        [x, TOP - 7],
      ],
      "accent",
    ),
    line(
      [
        [x, FOOT + 3.6],
        [x, FOOT + 7],
      ],
      "accent",
    ),
    line(
      [
        [x - 2.4, TOP - 7],
        [x + 2.4, TOP - 7],
      ],
      "accent",
    ),
    line(
      [
        [x - 2.4, FOOT + 7],
        [x + 2.4, FOOT + 7],
      ],
      "accent",
    ),
    ...dimensionLine(TOP, FOOT, x + 5, "y").map(accented),
  ];
}

/** A bar across the faces and a pin down to the bottom. */
const depthGauge = (x: number, foot: number): readonly Mark[] => [
  box([22, TOP - 2.6, 44, 2.6], "paper", "accent"),
  line(
    [
      [x - 0.7, TOP - 6],
      [x - 0.7, foot - 1],
      [x, foot],
      [x + 0.7, foot - 1],
      [x + 0.7, TOP - 6],
      [x - 0.7, TOP - 6],
    ],
    "accent",
  ),
  line(
    [
      [x + 2, foot],
      [73, foot],
    ],
    "accent",
  ),
  line(
    [
      [66, TOP],
      [73, TOP],
    ],
    "accent",
  ),
  ...dimensionLine(TOP, foot, 71.5, "y").map(accented),
];

/** A contact thermometer held against the face. */
const probe = (x: number): readonly Mark[] => [
  oval([x, TOP - 1], [1, 1], "arrow", "accent"),
  line(
    [
      [x, TOP - 2],
      [x - 5, TOP - 8.5],
    ],
    "accent",
  ),
  box([x - 16, TOP - 12.5, 13, 5], "paper", "accent"),
  text([x - 9.5, TOP - 8.8], "°C  °F", 3, "middle", { accent: true }),
];

const accented = (mark: Mark): Mark => (mark.is === "line" ? { ...mark, ink: "accent" } : mark);
