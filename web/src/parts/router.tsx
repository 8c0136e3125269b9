import { signal } from "@preact/signals";
import type { ComponentChildren } from "preact";

/** The path that is shown. */
export const path = signal(location.pathname);

window.addEventListener("popstate", () => {
  path.value = location.pathname;
});

/** Show another path; what was on the screen before is one step back. */
export function go(to: string, { replace = false } = {}): void {
  if (to !== location.pathname) history[replace ? "replaceState" : "pushState"](null, "", to);
  path.value = location.pathname;
  scrollTo(0, 0);
  // whoever listens or uses keys goes on in the new screen, not in a link that is gone
  requestAnimationFrame(() => document.getElementById("place")?.focus({ preventScroll: true }));
}

/** The parts of a path behind its beginning: `/menus/2027-03-12/dinner/family` of `/menus` has three. */
export function below(start: string): string[] {
  const rest = path.value.slice(start.length).split("/").filter(Boolean);
  return rest.map(decodeURIComponent);
}

interface LinkProps {
  to: string;
  class?: string;
  "aria-current"?: "page" | undefined;
  children: ComponentChildren;
}

/** A link within the house; opened in another tab it works as any link. */
export function Link({ to, children, ...more }: LinkProps) {
  return (
    <a
      {...more}
      href={to}
      onClick={(event) => {
        if (event.metaKey || event.ctrlKey || event.shiftKey || event.altKey || event.button)
          return;
        event.preventDefault();
        go(to);
      }}
    >
      {children}
    </a>
  );
}
