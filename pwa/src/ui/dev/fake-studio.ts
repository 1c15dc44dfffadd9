// The invented studio that screens are looked at with: Marram House Textile Studio.
import type { Machine } from "../studio/machine";
import type { FakeEntry } from "./fake-fold";

export const FLAG = "01J8FLAG000000000000000000";
export const BONNET = "01J8BNNET00000000000000000";
export const SAMPLER = "01J8SAMPLER000000000000000";
export const CLOSED = "01J8CLSED00000000000000000";

const MIN = 60_000;

type Line = [minutesAgo: number, by: string, kind: string, body: Record<string, unknown>, name?: string, late?: number];

const WATER = "deionised water";
const SOAP = "0.5 g/L sodium dodecyl sulfate";

export function fakeLogs(now: number): Map<string, FakeEntry[]> {
  const flag: Line[] = [
    [190, "RV", "open", { name: "Harbour-office signal flag", sample: true }],
    [189, "RV", "set", { field: "number", value: "MH 214" }],
    [188, "RV", "set", { field: "fibre", value: "wool bunting, by microscope" }],
    [187, "RV", "set", { field: "dry_mass_g", value: "412" }],
    [186, "RV", "set", { field: "colours", value: "madder red, undyed white" }, "flag-colours-1"],
    [186, "OT", "set", { field: "colours", value: "red (two reds?), white" }],
    [74, "RV", "begin", { what: "presoak", liquid: WATER, litres: "24", target_s: 900 }, "flag-presoak"],
    [60, "RV", "reading", { q: "conductivity", value: "612", unit: "uS/cm", of: "flag-presoak" }],
    [58, "RV", "end", { of: "flag-presoak" }],
    [55, "OT", "begin", { what: "wash", liquid: SOAP, litres: "24", target_s: 480 }, "flag-wash", 9],
    [50, "OT", "reading", { q: "ph", value: "8.4", unit: "pH", of: "flag-wash" }, "flag-ph"],
    [
      49,
      "OT",
      "amend",
      {
        of: "flag-ph",
        over: ["flag-ph"],
        body: { q: "ph", value: "7.4", unit: "pH", of: "flag-wash" },
        why: "read off the wrong line",
      },
    ],
    [
      48,
      "RV",
      "note",
      { text: "Suds fade after four minutes; a faint pink on the sponge at the hoist edge." },
      "flag-note",
    ],
    [47, "OT", "end", { of: "flag-wash" }],
    [45, "RV", "note", { text: "Rinse water is warm." }, "flag-note-2"],
    [44, "RV", "strike", { of: "flag-note-2", why: "belongs to the bonnet" }],
    [4.4, "RV", "reading", { q: "temperature", value: "21.5", unit: "degC" }],
    [1.8, "RV", "begin", { what: "rinse", liquid: WATER, litres: "12", target_s: 480 }, "flag-rinse"],
  ];
  const bonnet: Line[] = [
    [90, "OT", "open", { name: "Child's quilted bonnet", sample: true }],
    [20, "OT", "begin", { what: "wash", liquid: SOAP, litres: "3.5", target_s: 480 }, "bonnet-wash"],
    [14, "OT", "reading", { q: "temperature", value: "22.0", unit: "degC", of: "bonnet-wash" }],
  ];
  const sampler: Line[] = [
    [3000, "IB", "open", { name: "Sampler band of drawn-thread work" }],
    ...Array.from({ length: 1990 }, (_, i): Line => [
      2990 - i,
      "IB",
      "reading",
      { q: "temperature", value: (20 + (i % 30) / 10).toFixed(1), unit: "degC" },
    ]),
    [300, "IB", "begin", { what: "rinse", liquid: WATER, litres: "2", target_s: 600 }, "sampler-rinse"],
    [290, "IB", "end", { of: "sampler-rinse" }],
  ];
  const closed: Line[] = [
    [40000, "RV", "open", { name: "Cushion front with laid threads" }],
    [39000, "RV", "close", {}],
  ];
  return new Map([
    [FLAG, entries(flag, now, "flag")],
    [BONNET, entries(bonnet, now, "bonnet")],
    [SAMPLER, entries(sampler, now, "sampler")],
    [CLOSED, entries(closed, now, "closed")],
  ]);
}

function entries(lines: readonly Line[], now: number, prefix: string): FakeEntry[] {
  return lines.map(([ago, by, kind, body, name, late], i) => {
    const atMs = now - Math.round(ago * MIN);
    const recordedMs = atMs + (late ?? 0) * MIN;
    return {
      name: name ?? `${prefix}-${i}`,
      dev: "01J8DEV0000000000000000000",
      n: i + 1,
      kind,
      body,
      atMs,
      recordedMs,
      by,
    };
  });
}

const QR = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 29 29"><path d="${qrLike()}"/></svg>`;

/** Something that looks like a QR code. */
function qrLike(): string {
  const eye = (x: number, y: number) => `M${x} ${y}h7v7h-7zm1 1v5h5v-5zm1 1h3v3h-3z`;
  let d = eye(4, 4) + eye(18, 4) + eye(4, 18);
  let r = 7;
  for (let y = 4; y < 25; y++)
    for (let x = 4; x < 25; x++) {
      r = (r * 1103515245 + 12345) % 2147483648;
      const inEye = (x < 12 && y < 12) || (x > 16 && y < 12) || (x < 12 && y > 16);
      if (!inEye && r % 2 === 0) d += `M${x} ${y}h1v1h-1z`;
    }
  return d;
}

export function fakeMachine(): Machine {
  const now = Date.now();
  return {
    place: async () => ({
      addresses: ["192.168.77.12"],
      tls_url: "https://sinkside.local:8743",
      trust_url: "http://sinkside.local:8781",
      trust_qr_svg: QR,
      fingerprint: "7F 3A 91 0C 5D E8 22 B4 6E 19 A7 F0 3C 88 D1 45",
      fallback: {
        tls_url: "https://192.168.77.12:8743",
        trust_url: "http://192.168.77.12:8781",
        say: "If the network gives this machine another number, phones keep their entries but cannot find it.",
      },
      problem: "",
    }),
    newCode: async () => ({
      code: "K7QD-2M9F",
      expires_ms: Date.now() + 10 * MIN,
      url: "https://sinkside.local:8743/#/pair/K7QD-2M9F",
      qr_svg: QR,
    }),
    devices: async () => [
      {
        id: "a",
        label: "Studio screen",
        created_ms: now - 9e8,
        seen_ms: now - 2000,
        revoked_ms: 0,
        succeeds: "",
        this: true,
      },
      {
        id: "b",
        label: "RV's phone",
        created_ms: now - 8e8,
        seen_ms: now - 40000,
        revoked_ms: 0,
        succeeds: "",
        this: false,
      },
      {
        id: "c",
        label: "Old tablet",
        created_ms: now - 9e9,
        seen_ms: now - 8e9,
        revoked_ms: now - 7e8,
        succeeds: "",
        this: false,
      },
    ],
    revoke: async () => undefined,
    importFile: async () => ({
      device: "b",
      name: "RV's phone",
      stored: 12,
      known: 3,
      treatments: 2,
      refused: [],
      refused_more: 0,
      drafts: 0,
    }),
    removeSample: async () => ({ removed: [FLAG], kept: [BONNET] }),
  };
}
