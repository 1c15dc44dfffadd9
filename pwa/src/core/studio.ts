// What the worker asks the studio machine over plain requests; all else goes over the line.

/** Whom the studio machine takes this browser for. */
export type Who =
  | { known: true; dev: string; label: string; studio: string }
  | { known: false; revoked: boolean }
  /** It was not reached, or did not answer sense. */
  | undefined;

interface Answered {
  status: number;
  body: Record<string, unknown>;
}

const PATIENCE_MS = 10_000;

async function ask(method: "GET" | "POST", path: string, body?: object): Promise<Answered | undefined> {
  try {
    const response = await fetch(path, {
      method,
      cache: "no-store",
      credentials: "same-origin",
      signal: AbortSignal.timeout(PATIENCE_MS),
      ...(body ? { headers: { "Content-Type": "application/json" }, body: JSON.stringify(body) } : {}),
    });
    const answer: unknown = await response.json();
    return typeof answer === "object" && answer !== null
      ? { status: response.status, body: answer as Record<string, unknown> }
      : undefined;
  } catch {
    return undefined;
  }
}

const text = (v: unknown): string => (typeof v === "string" ? v : "");

export async function whoAmI(): Promise<Who> {
  const a = await ask("GET", "/api/me");
  if (!a) return undefined;
  if (a.status === 401) return { known: false, revoked: a.body["code"] === "revoked" };
  const dev = text(a.body["device"]);
  if (a.status !== 200 || dev === "") return undefined;
  return { known: true, dev, label: text(a.body["name"]), studio: text(a.body["studio"]) };
}

/** Spends a pairing code. */
export async function pair(code: string, label: string): Promise<{ ok: true } | { say: string }> {
  const a = await ask("POST", "/api/pair", { code, label });
  if (!a) return { say: "The studio machine does not answer. Is this phone on the studio's network?" };
  if (a.status === 200) return { ok: true };
  return { say: text(a.body["say"]) || "The studio machine did not accept this code." };
}

/** Claims the successor id of this nonce; asked again it gives the same. Empty when it is not to be had now. */
export async function claimSuccessor(nonce: string): Promise<string> {
  const a = await ask("POST", "/api/successor", { nonce });
  return a?.status === 200 ? text(a.body["device"]) : "";
}
