/** A JPEG of so many bytes, as far as its size in pixels can be read. */
export function picture(bytes: number, seed = 1): Uint8Array<ArrayBuffer> {
  const b = new Uint8Array(Math.max(bytes, 40));
  for (let i = 0, v = seed; i < b.length; i++) b[i] = v = (v * 75 + 74) % 65537;
  // An application segment of four bytes, then the frame header: 800 wide, 600 high.
  b.set([0xff, 0xd8, 0xff, 0xe0, 0, 4, 0, 0, 0xff, 0xc0, 0, 17, 8, 600 >> 8, 600 & 255, 800 >> 8, 800 & 255, 3]);
  return b;
}

export function image(bytes: number, seed?: number): Blob {
  return new Blob([picture(bytes, seed)], { type: "image/jpeg" });
}
