// Makes of a camera's picture one that is fit to keep: a JPEG of moderate size, upright, without what the
// camera wrote beside it, such as the place.

export interface Picture {
  type: string;
  bytes: Uint8Array<ArrayBuffer>;
  /** Pixels. */
  w: number;
  h: number;
}

/** Pixels of the longer side, at most. */
const LONGEST = 1600;
const QUALITY = 0.85;
/** Where pictures cannot be drawn, a JPEG of up to so many bytes is kept as it came. */
const AS_IT_CAME = 1_000_000;
const JPEG = "image/jpeg";

/** Undefined when the picture cannot be read here, or not be made small enough. */
export async function shrink(image: Blob): Promise<Picture | undefined> {
  const drawn = await draw(image).catch(() => undefined);
  if (drawn) return drawn;
  if (image.size > AS_IT_CAME) return undefined;
  const bytes = new Uint8Array(await image.arrayBuffer());
  const size = jpegSize(bytes);
  return size && { type: JPEG, bytes, ...size };
}

async function draw(image: Blob): Promise<Picture | undefined> {
  if (typeof createImageBitmap !== "function" || typeof OffscreenCanvas !== "function") return undefined;
  const whole = await createImageBitmap(image);
  try {
    const scale = Math.min(1, LONGEST / Math.max(whole.width, whole.height));
    const w = Math.max(1, Math.round(whole.width * scale));
    const h = Math.max(1, Math.round(whole.height * scale));
    const canvas = new OffscreenCanvas(w, h);
    const pen = canvas.getContext("2d");
    if (!pen) return undefined;
    // What a picture leaves open would come out black.
    pen.fillStyle = "white";
    pen.fillRect(0, 0, w, h);
    pen.imageSmoothingQuality = "high";
    pen.drawImage(whole, 0, 0, w, h);
    const made = await canvas.convertToBlob({ type: JPEG, quality: QUALITY });
    if (made.type !== JPEG) return undefined;
    return { type: JPEG, bytes: new Uint8Array(await made.arrayBuffer()), w, h };
  } finally {
    whole.close();
  }
}

/** Width and height as a JPEG's frame header says; undefined when it is none. */
export function jpegSize(b: Uint8Array): { w: number; h: number } | undefined {
  const two = (at: number) => ((b[at] ?? 0) << 8) | (b[at + 1] ?? 0);
  if (two(0) !== 0xffd8) return undefined;
  for (let at = 2; at + 9 < b.length;) {
    const mark = b[at + 1] ?? 0;
    if (b[at] !== 0xff) return undefined;
    // Frame headers; c4, c8 and cc among them are other tables.
    if (mark >= 0xc0 && mark <= 0xcf && mark !== 0xc4 && mark !== 0xc8 && mark !== 0xcc) {
      const [h, w] = [two(at + 5), two(at + 7)];
      return w > 0 && h > 0 ? { w, h } : undefined;
    }
    at += mark === 0xff ? 1 : 2 + two(at + 2);
  }
  return undefined;
}
