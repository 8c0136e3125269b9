import { useSignal } from "@preact/signals";
import { useReport } from "../../../door/reports";
import type { ItemRow } from "../../../door/rows";
import { Button } from "../../../parts/button";
import { Field } from "../../../parts/fields";
import { answersTo, plain } from "../../../words/find";

const LETTERS = 3;
const MOST = 6;

interface ItemFinderProps {
  label: string;
  onItem: (item: ItemRow) => void;
}

/** Three letters of a counted item's name, and it is one of the few below. */
export function ItemFinder({ label, onItem }: ItemFinderProps) {
  const typed = useSignal("");
  const items = useReport<ItemRow>("items").said.value?.rows ?? [];
  const found = plain(typed.value).length >= LETTERS ? matching(items, typed.value) : [];
  return (
    <>
      <Field label={label} hint="Three letters of its name." value={typed} enterKeyHint="search" />
      {found.length > 0 && (
        <ul class="lines">
          {found.map((item) => (
            <li key={item.id}>
              <Button
                kind="quiet"
                onClick={() => {
                  typed.value = "";
                  onItem(item);
                }}
              >
                {item.item}
              </Button>
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

function matching(items: ItemRow[], typed: string): ItemRow[] {
  return items
    .filter((item) => item.counted && answersTo(item.item, typed) !== null)
    .sort((one, other) => (answersTo(one.item, typed) ?? 9) - (answersTo(other.item, typed) ?? 9))
    .slice(0, MOST);
}
