// A small draughtsman's sign for each sort of statement, drawn in one line weight.
import type { Keyword } from "../../../core/view.ts";

export function Glyph(props: { readonly keyword: Keyword }) {
  return (
    <svg className="glyph" viewBox="0 0 16 16" width="16" height="16" aria-hidden="true" focusable="false">
      <path
        d={drawing(props.keyword)}
        fill="none"
        stroke="currentColor"
        strokeWidth="1.2"
        strokeLinejoin="round"
      />
    </svg>
  );
}

/** What the sign stands for, to be read out. */
export function keywordMeans(keyword: Keyword): string {
  switch (keyword) {
    case "book":
      return "the book";
    case "part":
      return "part heading";
    case "kind":
      return "closed list of words";
    case "ask":
      return "asked at the panel";
    case "dial":
      return "house number";
    case "figure":
      return "worked out";
    case "formula":
      return "formula";
    case "chart":
      return "chart";
    case "list":
      return "list";
    case "step":
      return "step on the card";
    case "caution":
      return "caution on the card";
    case "stop":
      return "stops the work";
    case "promise":
      return "must hold for every job";
    case "picture":
      return "drawing";
    case "worked":
      return "worked example";
    case "use":
      return "brings in another book";
    case "drop":
      return "leaves out what stands underneath";
    case "unreadable":
      return "not readable yet";
  }
}

function drawing(keyword: Keyword): string {
  switch (keyword) {
    case "book":
      return "M3 2h9a1 1 0 0 1 1 1v11H4a1 1 0 0 1-1-1zM3 11.5h10";
    case "part":
      return "M1 6h14v4H1z";
    case "kind":
      return "M3 3h4v4H3zM9 3h4v4H9zM3 9h4v4H3zM9 9h4v4H9z";
    case "ask":
      return "M1 5h14v6H1zM4 5v3M7 5v2M10 5v3M13 5v2";
    case "dial":
      return "M8 2.5a5.5 5.5 0 1 1 0 11 5.5 5.5 0 0 1 0-11M8 8l3-3";
    case "figure":
      return "M2 3v10M14 3v10M2 8h12M5 6L2 8l3 2M11 6l3 2-3 2";
    case "formula":
      return "M8 2L4 14M8 2l4 12M8 1v2M5.6 9h4.8";
    case "chart":
      return "M2 2v12h12M2 11h4V8h4V4h4";
    case "list":
      return "M3 12h10M4.5 9h7M6 6h4M7 3h2";
    case "step":
      return "M3 3h10v10H3zM5.5 8l2 2 3.5-4";
    case "caution":
      return "M8 2l6.5 12h-13zM8 6.5v4M8 11.6v1";
    case "stop":
      return "M5.3 1.5h5.4l3.8 3.8v5.4l-3.8 3.8H5.3l-3.8-3.8V5.3zM4.5 8h7";
    case "promise":
      return "M8 2l5 2v4c0 3-2 5-5 6-3-1-5-3-5-6V4zM5.7 8l1.7 1.7 3-3.2";
    case "picture":
      return "M2 3h12v10H2zM2 11l4-4 8 4";
    case "worked":
      return "M5 1.5h6l3 3v10H2v-10zM8 4.2v.6M5 9h6M5 11.5h4";
    case "use":
      return "M2 3h6v10H2zM14 8H10M12 5.5L9.5 8l2.5 2.5";
    case "drop":
      return "M3 3h10v10H3zM5 8h6";
    case "unreadable":
      return "M2 8q1.5-4 3 0t3 0 3 0 3 0";
  }
}
