// What the studio page asks of the studio machine itself, over its HTTP routes. Everything that is
// part of the record goes through the core instead.
import { createContext } from "preact";
import { useContext } from "preact/hooks";

/** Where phones find the studio machine. */
export interface Place {
  addresses: string[];
  tls_url: string;
  /** Empty where nothing needs trusting. */
  trust_url: string;
  /** A QR code of `trust_url`. */
  trust_qr_svg: string;
  /** Of the studio's certificate authority, to compare with what the phone shows. */
  fingerprint: string;
  /** Bare numbers for a phone that does not find the name, and what is dangerous about them. */
  fallback: { tls_url: string; trust_url: string; say: string } | null;
  /** Why the name does not work just now; mostly empty. */
  problem: string;
}

export interface PairCode {
  code: string;
  expires_ms: number;
  url: string;
  qr_svg: string;
}

export interface Device {
  id: string;
  label: string;
  created_ms: number;
  seen_ms: number;
  /** 0 while it may come in. */
  revoked_ms: number;
  /** The id for which it goes on, after a copy was found; empty for most. */
  succeeds: string;
  this: boolean;
}

export interface Imported {
  device: string;
  name: string;
  stored: number;
  known: number;
  treatments: number;
  refused: { line: number; say: string }[];
  /** Refused lines besides those. */
  refused_more: number;
  /** Taps in the file that never became entries, and so cannot be taken in. */
  drafts: number;
}

export interface Machine {
  place(): Promise<Place>;
  newCode(): Promise<PairCode>;
  devices(): Promise<Device[]>;
  revoke(id: string): Promise<void>;
  importFile(file: Blob, by: string): Promise<Imported>;
  removeSample(): Promise<{ removed: string[]; kept: string[] }>;
}

/** What the machine answered in place of what was asked, as a sentence. */
export class Refusal extends Error {}

export const httpMachine: Machine = {
  place: () => ask<Place>("GET", "/api/place"),
  newCode: () => ask<PairCode>("POST", "/api/pair/new"),
  devices: async () => (await ask<{ devices: Device[] }>("GET", "/api/devices")).devices,
  revoke: async (id) => void (await ask("POST", `/api/devices/${encodeURIComponent(id)}/revoke`)),
  importFile: (file, by) => ask<Imported>("POST", `/api/import?by=${encodeURIComponent(by)}`, file),
  removeSample: () => ask("POST", "/api/sample/remove"),
};

async function ask<T>(method: "GET" | "POST", path: string, body?: BodyInit): Promise<T> {
  let answer: Response;
  try {
    answer = await fetch(path, { method, ...(body === undefined ? {} : { body }), cache: "no-store" });
  } catch {
    throw new Refusal("The studio machine does not answer. Is it on, and is this device in its network?");
  }
  const said: unknown = await answer.json().catch(() => null);
  if (answer.ok) return said as T;
  throw new Refusal(isSaid(said) ? said.say : `The studio machine answered with ${answer.status}.`);
}

function isSaid(v: unknown): v is { say: string } {
  return typeof v === "object" && v !== null && typeof (v as { say?: unknown }).say === "string";
}

export const MachineContext = createContext<Machine>(httpMachine);

export function useMachine(): Machine {
  return useContext(MachineContext);
}

export function refusalSays(e: unknown): string {
  return e instanceof Refusal ? e.message : "That did not work. Try it again.";
}
