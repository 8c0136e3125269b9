import { useEffect, useRef } from "preact/hooks";

/** The name of a step that took the place of another; who listens or uses keys goes on there. */
export function Titled({ children }: { children: string }) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus({ preventScroll: true }), [children]);
  return (
    <h2 ref={heading} tabIndex={-1} class="step">
      {children}
    </h2>
  );
}
