// What the reference says of the findings about charts: the way out, and the smallest book that causes each.
import type { FindingPage } from "./page.ts";

const ASK = "ask depth in mm, 0 to 10\n";
const rows = (...lines: string[]) => lines.map((line) => `    ${line}`).join("\n");

export const CHARTS: Readonly<Record<string, FindingPage>> = {
  "chart/hole": {
    mend: "Add the row that is missing.",
    smallest:
      `${ASK}chart grit by depth gives number\n` +
      rows("depth | grit", "under 3 mm | 80", "over 3 mm | 40", "from practice"),
  },
  "chart/overlap": {
    mend:
      "Let one band end where the next begins: `under 3 mm`, then `3 mm and over`; or say " +
      "`first row wins`. Until then the chart has no value where both rows apply, and no card is released.",
    smallest:
      `${ASK}chart grit by depth gives number\n` +
      rows("depth | grit", "up to 3 mm | 80", "3 mm and over | 40", "from practice"),
  },
  "chart/never": {
    mend: "Move it up, or take it out.",
    smallest:
      `${ASK}chart grit by depth gives number\n` +
      rows("first row wins", "depth | grit", "any | 80", "under 3 mm | 40", "from practice"),
  },
  "chart/ends": {
    mend: "Add points, or say `nothing outside` or `hold ends`, so that a reader knows that it is meant.",
    smallest:
      `${ASK}chart dose by depth gives number\n` +
      rows("straight between rows", "depth | dose", "2 mm | 1", "8 mm | 2", "from practice"),
  },
  "chart/grid": {
    mend: "Add the points that are missing.",
    smallest:
      `${ASK}ask width in mm, 0 to 10\nchart dose by depth, width gives number\n` +
      rows(
        "straight between rows, hold ends",
        "depth | width | dose",
        "2 mm | 1 mm | 1",
        "2 mm | 5 mm | 2",
        "8 mm | 1 mm | 2",
        "from practice",
      ),
  },
  "chart/points": {
    mend: "Write single amounts, two or more, in the column gone between.",
    smallest:
      `${ASK}chart dose by depth gives number\n` +
      rows("straight between rows", "depth | dose", "under 3 mm | 1", "3 mm and over | 2", "from practice"),
  },
  "chart/between": {
    mend: "Leave `straight between rows` or `curve between rows` out.",
    smallest:
      `${ASK}kind cloth\n    mat\n    weave\nchart ply by depth gives cloth\n` +
      rows("straight between rows, hold ends", "depth | ply", "2 mm | mat", "8 mm | weave", "from practice"),
  },
  "chart/options": {
    mend: "Keep one way of reading the rows.",
    smallest:
      `${ASK}chart grit by depth gives number\n` +
      rows("first row wins, keep every row that fits", "depth | grit", "any | 80", "from practice"),
  },
  "chart/header": {
    mend: "Name every condition and every value once in the first row.",
    smallest: `${ASK}chart grit by depth gives number\n${rows("dept | grit", "any | 80", "from practice")}`,
  },
  "chart/width": {
    mend: "Write one cell for each column, parted by |.",
    smallest:
      `${ASK}chart grit by depth gives number\n` + rows("depth | grit", "any | 80 | 40", "from practice"),
  },
  "chart/empty": {
    mend: "Write `any` where everything is meant, or the value.",
    smallest: `${ASK}chart grit by depth gives number\n${rows("depth | grit", "any | ", "from practice")}`,
  },
  "chart/no-rows": {
    mend: "Write a header and rows below it, cells parted by |.",
    smallest: `${ASK}chart grit by depth gives number\n${rows("from practice")}`,
  },
  "chart/cell": {
    mend: "Write words of the kind, parted by commas, or any.",
    smallest:
      "kind cloth\n    mat\n    weave\nask ply of cloth\nchart grit by ply gives number\n" +
      rows("ply | grit", "under 3 mm | 80", "from practice"),
  },
  "chart/end": {
    mend: "Write a number, or name a dial.",
    smallest:
      `${ASK}figure half = depth / 2\nchart grit by depth gives number\n` +
      rows("depth | grit", "under half | 80", "from practice"),
  },
  "chart/value": {
    mend: "Write a value of the kind that the chart gives.",
    smallest: `${ASK}chart dose by depth gives mm\n${rows("depth | dose", "any | 3 kg", "from practice")}`,
  },
  "chart/gives": {
    mend: "Say what the chart gives: a unit, a kind, yes-no, number, taper or text.",
    smallest: `${ASK}chart grit by depth gives grits\n${rows("depth | grit", "any | 80", "from practice")}`,
  },
  "chart/condition-twice": {
    mend: "Name each condition once.",
    smallest:
      `${ASK}chart grit by depth, depth gives number\n` +
      rows("depth | depth | grit", "any | any | 80", "from practice"),
  },
  "chart/called": {
    mend: "Write the values that it is read by in brackets.",
    smallest:
      "chart micron by grit in count gives um\n" +
      `${rows("grit | micron", "80 | 201", "120 | 125", "from practice")}\n` +
      "figure fine = micron",
  },
  "chart/not-kept": {
    mend: "Say `keep every row that fits` in the chart, or compare with `is`.",
    smallest:
      `${ASK}chart grit by depth gives number\n` +
      `${rows("depth | grit", "any | 80", "from practice")}\nfigure fine = 80 is among grit`,
  },
  "chart/kept-one": {
    mend: "Give one value, or another chart for the others.",
    smallest:
      `${ASK}chart care by depth gives a in mm, b in mm\n` +
      rows("keep every row that fits", "depth | a | b", "any | 1 | 2", "from practice"),
  },
};
