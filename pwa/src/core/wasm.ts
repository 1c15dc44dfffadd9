// The Go core as a WebAssembly instance, and the one way into it: a request of a JSON header, a line
// end and a payload goes into a buffer that both sides share; an answer of the same form comes out.
import "wasm_exec";

interface Exports {
  /** Go calls it so. */
  mem: WebAssembly.Memory;
  /** Makes room for a request of n bytes and returns where. */
  reserve(n: number): number;
  /** Carries out the request of n bytes; returns how long the answer is. */
  call(n: number): number;
  /** Where the answer is. */
  answer(): number;
}

/** An operation was refused; the core is well. */
export class CoreError extends Error {}

/** The core is gone: it crashed, or was never there. */
export class CoreGone extends Error {}

export interface Answer {
  header: unknown;
  /** Valid until the next call. */
  payload: Uint8Array;
}

const LINE_END = 10;
const encoder = new TextEncoder();
const decoder = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });

export const textOf = (b: Uint8Array): string => decoder.decode(b);

export class CoreInstance {
  private gone: unknown;

  private constructor(
    private readonly exports: Exports,
    ended: Promise<void>,
  ) {
    ended.then(
      () => (this.gone ??= new CoreGone("the core ended")),
      (e: unknown) => (this.gone ??= e),
    );
  }

  static async start(module: WebAssembly.Module): Promise<CoreInstance> {
    const go = new Go();
    const instance = await WebAssembly.instantiate(module, go.importObject);
    const ended = go.run(instance);
    return new CoreInstance(instance.exports as unknown as Exports, ended);
  }

  /** Carries out one operation. Throws CoreError when it is refused, CoreGone when the core has crashed. */
  call(op: string, header: object = {}, payload: string | Uint8Array = ""): Answer {
    if (this.gone !== undefined) throw new CoreGone("the core has crashed", { cause: this.gone });
    let got: Answer;
    try {
      got = this.exchange(JSON.stringify({ op, ...header }) + "\n", payload);
    } catch (e) {
      this.gone = e;
      throw new CoreGone(`the core crashed in ${op}`, { cause: e });
    }
    const problem = refusal(got.header);
    if (problem === undefined) return got;
    if (problem.crashed) this.gone = problem.say;
    throw problem.crashed ? new CoreGone(problem.say) : new CoreError(problem.say);
  }

  private exchange(header: string, payload: string | Uint8Array): Answer {
    const x = this.exports;
    // A UTF-16 unit takes at most three bytes in UTF-8.
    const room = 3 * header.length + (typeof payload === "string" ? 3 * payload.length : payload.length);
    const at = x.reserve(room);
    const buffer = new Uint8Array(x.mem.buffer, at, room);
    let n = encoder.encodeInto(header, buffer).written;
    if (typeof payload === "string") {
      n += encoder.encodeInto(payload, buffer.subarray(n)).written;
    } else {
      buffer.set(payload, n);
      n += payload.length;
    }
    const size = x.call(n);
    // The call may have grown the memory, which detaches the old view.
    const answer = new Uint8Array(x.mem.buffer, x.answer(), size);
    const end = answer.indexOf(LINE_END);
    return { header: JSON.parse(textOf(answer.subarray(0, end))), payload: answer.subarray(end + 1) };
  }
}

function refusal(header: unknown): { say: string; crashed: boolean } | undefined {
  if (typeof header !== "object" || header === null || !("error" in header)) return undefined;
  return { say: String(header.error), crashed: "crashed" in header && header.crashed === true };
}

/** Fetches and compiles the core. */
export async function compileCore(url: string): Promise<WebAssembly.Module> {
  return WebAssembly.compileStreaming(fetch(url));
}
