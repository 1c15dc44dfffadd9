// The worker of the library of reckonings: a Go module of its own, which knows of no log. Should it
// crash, no entry is touched, and it is started again.
import { CoreHost } from "./host";
import * as ops from "./library-ops";
import { libraryFile } from "./later-files";
import { answer, type DeskCalls, type FromDesk, type Request } from "./messages";
import { LIBRARY_AWAY, LIBRARY_FAILED } from "./sentences";
import type { CoreInstance } from "./wasm";

/** What is used of the global scope of a dedicated worker. */
interface Scope {
  postMessage(m: FromDesk): void;
  onmessage: ((e: MessageEvent<Request>) => void) | null;
}

const scope = globalThis as unknown as Scope;

let away = false;

async function compile(): Promise<WebAssembly.Module> {
  away = false;
  let file: Response;
  try {
    file = await libraryFile();
  } catch (e) {
    away = true;
    throw e;
  }
  return WebAssembly.compileStreaming(file);
}

const host = new CoreHost(
  compile,
  () => Date.now(),
  () => undefined,
  () => undefined,
);

async function onLibrary<T>(f: (c: CoreInstance) => T): Promise<T> {
  host.retry();
  const c = await host.ready();
  const got = c && host.try((c) => ({ value: f(c) }));
  if (!got) throw new Error(away ? LIBRARY_AWAY : LIBRARY_FAILED);
  return got.value;
}

const desk: DeskCalls = {
  list: () => onLibrary(ops.list),
  run: (name, inputs) => onLibrary((c) => ops.run(c, name, inputs)),
};

void host.start();
scope.onmessage = (e) => {
  void answer(desk, e.data).then((reply) => scope.postMessage({ reply }));
};
