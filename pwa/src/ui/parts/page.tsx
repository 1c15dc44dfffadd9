// The frame of every screen but the sink: a way back, a heading that takes the focus, notices.
import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { Icon } from "./icon";
import { Notices } from "./notices";
import { Standing } from "./standing";

interface PageProps {
  title: string;
  /** Where the way back leads, and what it is called. */
  back?: { to: string; say: string };
  aside?: ComponentChildren;
  wide?: boolean;
  children: ComponentChildren;
}

export function Page({ title, back, aside, wide, children }: PageProps) {
  const heading = useHeading(title);
  return (
    <div class={wide ? "page wide" : "page"}>
      <header class="top">
        {back && (
          <a class="key back" href={back.to}>
            <Icon is="back" />
            {back.say}
          </a>
        )}
        <h1 ref={heading} tabIndex={-1}>
          {title}
        </h1>
        {aside ?? <Standing />}
      </header>
      <Notices />
      <main class="body">{children}</main>
    </div>
  );
}

/** Names the document after the screen and gives its heading the focus, so that a screen reader starts there. */
export function useHeading(title: string) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    document.title = `${title} · Sinkside`;
  }, [title]);
  useEffect(() => heading.current?.focus({ preventScroll: true }), []);
  return heading;
}
