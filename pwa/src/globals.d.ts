// What the build puts in for these names.

/** True in a build made with -dev. */
declare const __DEV__: boolean;
/** Where the core, the worker's script are; paths on this origin. */
declare const __CORE_URL__: string;
declare const __WORKER_URL__: string;
/** Where the library of reckonings and its worker's script are. */
declare const __LIBRARY_URL__: string;
declare const __DESK_WORKER_URL__: string;
/** Hash of the library. */
declare const __LIBRARY_BUILD__: string;
/** Names of the reckonings that the core of the log carries itself. */
declare const __LOG_RECKONINGS__: readonly string[];
/** The repository's folder; in tests only. */
declare const __ROOT__: string;
/** Hash of the core. */
declare const __CORE_BUILD__: string;

/** The JavaScript half of Go's WebAssembly runtime; it defines `Go`. */
declare module "wasm_exec";

declare class Go {
  importObject: WebAssembly.Imports;
  /** Settles when the program ends, which the core does only by crashing. */
  run(instance: WebAssembly.Instance): Promise<void>;
}
