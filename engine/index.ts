// The one door into the engine. Nothing outside engine/ imports anything deeper.
//
// The engine is pure: no clock, file, network, process or chance. No function here
// throws for a bad book or a bad job; each returns its product and its findings.
export * from "./door.ts";
