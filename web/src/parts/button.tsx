import type { ComponentChildren } from "preact";

interface ButtonProps {
  children: ComponentChildren;
  onClick?: () => void;
  kind?: "main" | "plain" | "quiet";
  type?: "button" | "submit";
  disabled?: boolean;
  pressed?: boolean;
  form?: string;
}

/** Something that is done when the finger leaves it. */
export function Button(props: ButtonProps) {
  const { kind = "plain", type = "button", pressed, children, onClick, disabled, form } = props;
  return (
    <button
      class={`button ${kind}`}
      type={type}
      onClick={onClick}
      disabled={disabled}
      aria-pressed={pressed}
      form={form}
    >
      {children}
    </button>
  );
}

/** The one main action of a screen, under the thumb at the bottom. */
export function ActBar({ children }: { children: ComponentChildren }) {
  return (
    <section class="act-bar" aria-label="To be done here">
      <div>{children}</div>
    </section>
  );
}
