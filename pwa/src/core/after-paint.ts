/** Calls f once what is on the screen has been painted; a hidden page paints nothing, so there it is called soon. */
export function afterPaint(f: () => void): void {
  let done = false;
  const once = () => {
    if (done) return;
    done = true;
    f();
  };
  requestAnimationFrame(() => setTimeout(once));
  setTimeout(once, 250);
}
