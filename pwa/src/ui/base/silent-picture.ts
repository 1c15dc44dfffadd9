// A picture that plays keeps the screen on where there is no Wake Lock: older iOS lacks it in installed apps. Ours is
// drawn here, two pixels square and out of sight, as a stream; WebKit lets a screen sleep over a clip that repeats.

/** A stream whose picture never changes stops sending frames, so it is drawn anew, in milliseconds. */
const DRAW_MS = 1000;
/** A picture that has not begun to play after this time is not going to. */
const BEGIN_MS = 3000;

export class SilentPicture {
  private video: HTMLVideoElement | null = null;
  private drawing: ReturnType<typeof setInterval> | undefined;

  /** `onStopped`: the browser has stopped it, unasked. */
  constructor(private readonly onStopped: () => void) {}

  /** Tells whether it plays: its time goes on. */
  async play(): Promise<boolean> {
    const video = (this.video ??= this.make());
    if (!video) return false;
    this.drawing ??= setInterval(() => this.draw(), DRAW_MS);
    this.draw();
    try {
      await within(BEGIN_MS, video.play());
      return !video.paused;
    } catch {
      this.stop();
      return false;
    }
  }

  stop(): void {
    clearInterval(this.drawing);
    this.drawing = undefined;
    const video = this.video;
    this.video = null;
    if (!video) return;
    for (const track of (video.srcObject as MediaStream).getTracks()) track.stop();
    video.srcObject = null;
    video.remove();
  }

  private canvas: HTMLCanvasElement | null = null;
  private shade = false;

  private make(): HTMLVideoElement | null {
    const canvas = (this.canvas ??= document.createElement("canvas"));
    if (typeof canvas.captureStream !== "function") return null;
    canvas.width = canvas.height = 2;
    const video = document.createElement("video");
    video.muted = true;
    video.playsInline = true;
    video.setAttribute("playsinline", "");
    video.setAttribute("aria-hidden", "true");
    video.className = "silent-picture";
    this.draw();
    video.srcObject = canvas.captureStream(1);
    video.addEventListener("pause", () => {
      if (this.video === video) this.onStopped();
    });
    document.body.append(video);
    return video;
  }

  private draw(): void {
    const c = this.canvas?.getContext("2d");
    if (!c) return;
    this.shade = !this.shade;
    c.fillStyle = this.shade ? "black" : "gray";
    c.fillRect(0, 0, 2, 2);
  }
}

function within<T>(ms: number, p: Promise<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error("it took too long")), ms);
    p.then(resolve, reject).finally(() => clearTimeout(timer));
  });
}
