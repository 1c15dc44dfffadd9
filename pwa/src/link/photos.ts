// Sends photographs: offers what the studio machine lacks, and reads the chunks that the core's link
// asks for, in their order and no faster than the line takes them.
import { CHUNK_BYTES, photoBytes, photosSent, photosToSend } from "../journal/photos";
import type { DB, PhotoRow } from "../journal/schema";

export interface PhotosHost {
  db: DB;
  epoch: number;
  drained(): Promise<void>;
  offer(p: PhotoRow): void;
  /** Empty: the photograph is gone. */
  chunk(r: ChunkRef, data: Uint8Array): void;
  /** Some are on the studio machine's disk, and that is kept. */
  sent(): void;
  failed(e: unknown): void;
}

export interface ChunkRef {
  blob: string;
  index: number;
}

export class Photos {
  private reading: Promise<void> = Promise.resolve();
  private connection = 0;
  /** The photograph that was read last: its chunks are wanted one after the other. */
  private last: { blob: string; bytes: Uint8Array } | undefined;

  constructor(private readonly host: PhotosHost) {}

  /** A new connection: what was asked for on the one before is wanted no more. */
  restart(): void {
    this.connection++;
  }

  async offer(): Promise<void> {
    try {
      for (const p of await photosToSend(this.host.db)) this.host.offer(p);
    } catch (e) {
      this.host.failed(e);
    }
  }

  read(r: ChunkRef): void {
    const { connection } = this;
    this.reading = this.reading
      .then(async () => {
        await this.host.drained();
        if (connection !== this.connection) return;
        const data = await this.bytes(r.blob);
        if (connection !== this.connection) return;
        this.host.chunk(r, data.subarray(r.index * CHUNK_BYTES, (r.index + 1) * CHUNK_BYTES));
      })
      .catch((e: unknown) => this.host.failed(e));
  }

  async sent(blobs: readonly string[]): Promise<void> {
    this.last = undefined;
    try {
      await photosSent(this.host.db, blobs, this.host.epoch);
      this.host.sent();
    } catch (e) {
      this.host.failed(e);
    }
  }

  private async bytes(blob: string): Promise<Uint8Array> {
    if (this.last?.blob !== blob) {
      this.last = { blob, bytes: (await photoBytes(this.host.db, blob)) ?? new Uint8Array() };
    }
    return this.last.bytes;
  }
}
