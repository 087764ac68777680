// What the text face asks of the engine, always about the text as it stands.
import type { Bench } from "./store/bench.ts";
import type { TextServices } from "./text/services.ts";

export const textServices = (bench: Bench): TextServices => {
  const text = (): string => bench.state().desk.text;
  return {
    colour: async (piece: string) => (await bench.ask((engine) => engine.colour(piece))) ?? [],
    offers: async (offset: number) => (await bench.ask((engine) => engine.offers(text(), offset))) ?? { at: { start: offset, end: offset }, offers: [] },
    about: (offset: number) => bench.ask((engine) => engine.about(text(), offset)),
    places: (offset: number) => bench.ask((engine) => engine.places(text(), offset)),
    rename: async (offset: number, to: string) => (await bench.ask((engine) => engine.rename(text(), offset, to))) ?? { refused: "The working-out did not answer. Try again." },
  };
};
