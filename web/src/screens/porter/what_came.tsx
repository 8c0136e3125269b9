import type { ItemRow } from "../../door/rows";
import { Button } from "../../parts/button";
import { Place } from "../../parts/frame";
import { go } from "../../parts/router";
import { Wrong } from "../../parts/said";
import { Finder } from "./finder";
import { useHearing } from "./hearing";
import { carried, inHand } from "./in_hand";
import { cameInstead } from "./instead";
import type { Facts } from "./line_facts";

interface WhatCameProps {
  facts: Facts;
  onBack: () => void;
}

/** What came instead of the line that was opened: by its code, or three letters of its name. */
export function WhatCame({ facts, onBack }: WhatCameProps) {
  const { problem, hear } = useHearing("Not read");
  const { line, order_id, item: ordered } = facts;
  const choose = (came: string) => {
    if (!line) return;
    cameInstead.value = { item: ordered.item, item_id: ordered.id, pack_id: line.pack_id };
    go(`/goods-in/${order_id}/${came}`);
  };
  const byCode = hear((code) => {
    const match = code.matches.find(({ item_id }) => item_id !== ordered.id);
    if (!match) return { kind: "unknown", words: "Type three letters" };
    inHand.value = carried(code, match.pack_id ?? null);
    choose(match.item_id);
    return { kind: "known", words: match.item };
  });
  const byName = (item: ItemRow) => {
    if (item.id !== ordered.id) choose(item.id);
  };
  return (
    <Place title="What came?" under={`Instead of ${ordered.item}`}>
      <div class="narrow stack">
        <Finder label="Code or item" onCode={byCode} onItem={byName} />
        {problem.value && <Wrong problem={problem.value} />}
        <div>
          <Button onClick={onBack}>Back to {ordered.item}</Button>
        </div>
      </div>
    </Place>
  );
}
