import { useSignal } from "@preact/signals";
import { useEffect, useId, useLayoutEffect, useRef } from "preact/hooks";
import { prepareCodes } from "../../door/codes";
import { useReport } from "../../door/reports";
import type { ItemRow } from "../../door/rows";
import { answersTo, looksLikeCode, plain } from "../../words/find";
import { CameraKey } from "./camera_key";
import { useHandheld } from "./handheld";
import type { Heard } from "./heard";

const LETTERS = 3;
const MOST = 8;
/** The list below stands by then, in milliseconds; reading codes is the next thing to be had. */
const SOON = 1_000;

interface FinderProps {
  label: string;
  /** What can be given here, where it is not any code or name. */
  hint?: string;
  /** Takes a code in; answers what became of it. */
  onCode: (text: string) => Promise<Heard>;
  onItem: (item: ItemRow) => void;
  /** Called when something else is being typed: what the last code came to is of no use then. */
  onTyping?: () => void;
  /** What stands beside an item in the list; items with a word come first. */
  beside?: (item: ItemRow) => string | null;
}

/** The one field at the top: a code that is typed, pasted or scanned, or three letters of a name. */
export function Finder({ label, hint, onCode, onItem, onTyping, beside }: FinderProps) {
  const id = useId();
  const field = useRef<HTMLInputElement>(null);
  const typed = useSignal("");
  const said = useSignal("");
  const items = useReport<ItemRow>("items").said.value?.rows ?? [];
  const isName = plain(typed.value).length >= LETTERS && !looksLikeCode(typed.value);
  const found = isName ? matching(items, typed.value, beside) : [];
  const code = (text: string) => {
    typed.value = "";
    said.value = "";
    return onCode(text);
  };
  useHandheld((text) => {
    field.current?.focus({ preventScroll: true });
    void code(text);
  });
  useEffect(() => {
    const soon = setTimeout(() => void prepareCodes(), SOON);
    return () => clearTimeout(soon);
  }, []);
  useLayoutEffect(() => {
    // a touch screen would raise its keyboard over the list; there a scanner is heard without the focus
    if (matchMedia("(pointer: fine)").matches) field.current?.focus({ preventScroll: true });
  }, []);
  const enter = () => {
    const noted = found.filter((item) => beside?.(item));
    const [only, ...more] = noted.length > 0 ? noted : found;
    if (only && more.length === 0) onItem(only);
    else if (only) said.value = "More than one item; choose it below.";
    else if (typed.value.trim()) void code(typed.value.trim());
  };
  return (
    <search class="stack">
      <CameraKey onCode={code} />
      <form
        class="stack tight finder-form"
        onSubmit={(event) => {
          event.preventDefault();
          enter();
        }}
      >
        <div class="field">
          <label for={id}>{label}</label>
          <input
            id={id}
            ref={field}
            class="finder"
            type="text"
            autoComplete="off"
            autoCapitalize="off"
            spellcheck={false}
            enterKeyHint="search"
            value={typed}
            aria-describedby={`${id}-said`}
            onInput={(event) => {
              typed.value = event.currentTarget.value;
              said.value = "";
              onTyping?.();
            }}
            onPaste={(event) => {
              const text = event.clipboardData?.getData("text").trim() ?? "";
              if (!looksLikeCode(text)) return;
              event.preventDefault();
              void code(text);
            }}
          />
        </div>
        <p class="soft small" id={`${id}-said`} role="status">
          {said.value || (isName ? named(found.length) : (hint ?? ANY))}
        </p>
        <Found items={found} beside={beside} onItem={onItem} />
      </form>
    </search>
  );
}

function Found(props: { items: ItemRow[] } & Pick<FinderProps, "beside" | "onItem">) {
  const { items, beside, onItem } = props;
  if (items.length === 0) return null;
  return (
    <ul class="lines found">
      {items.map((item) => (
        <li key={item.id}>
          <button class="whole" type="button" onClick={() => onItem(item)}>
            <span class="row ends">
              <span>{item.item}</span>
              <span class="soft small">{beside?.(item)}</span>
            </span>
          </button>
        </li>
      ))}
    </ul>
  );
}

const ANY = "A code scanned, pasted or typed; or three letters of the name.";

function named(found: number): string {
  if (found === 0)
    return "No item of this house is called so. Set it aside; the chef or the manager enters it.";
  return found === 1 ? "One item." : `${found} items.`;
}

/** The items that answer to what was typed: those with a word beside them first, then the nearest. */
function matching(items: ItemRow[], typed: string, beside: FinderProps["beside"]): ItemRow[] {
  return items
    .map((item) => ({ item, rank: answersTo(item.item, typed), noted: Boolean(beside?.(item)) }))
    .filter(({ rank }) => rank !== null)
    .sort(
      (a, b) =>
        Number(b.noted) - Number(a.noted) ||
        (a.rank ?? 0) - (b.rank ?? 0) ||
        a.item.item.localeCompare(b.item.item),
    )
    .slice(0, MOST)
    .map(({ item }) => item);
}
