// The types of start-program.mjs, which is plain JavaScript.

export declare const programs: Readonly<Record<"bevelbook" | "start" | "engine-worker", string>>;
export declare function startProgram(name: keyof typeof programs): Promise<unknown>;
export declare function currentBundle(folder: string, root?: string): string | undefined;
export declare function buildPrograms(stdio?: "ignore" | "inherit"): Promise<boolean>;
