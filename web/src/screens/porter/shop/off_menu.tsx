import { useRef } from "preact/hooks";
import { now } from "../../../door/clock";
import { isNamed } from "../../../door/codes/is_on";
import { written } from "../../../door/house_days";
import { useReport } from "../../../door/reports";
import type { ItemRow, StockRow } from "../../../door/rows";
import { standingAt } from "../../../door/shelf_life";
import { useDoing } from "../../../parts/doing";
import { Done } from "../../../parts/done";
import { Place } from "../../../parts/frame";
import { below, go, Link } from "../../../parts/router";
import { Nothing, Wrong } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { Finder } from "../finder";
import { HeardWord } from "../heard";
import { carriedBy, useHearing } from "../hearing";
import { Using } from "./using";
import { usable } from "./which_batch";

/** What was used outside any menu, by its label, a code or three letters: a tray, a late supper. */
export function OffMenu() {
  const [first, second] = below("/use");
  return (
    <>
      <HeardWord />
      {first ? <OfWhat key={`${first} ${second}`} first={first} second={second} /> : <Find />}
    </>
  );
}

function Find() {
  const { problem, hear } = useHearing();
  const take = hear((code) => {
    const match = carriedBy(code);
    if (!match) return { kind: "unknown", words: "Not known here" };
    go(match.label ? `/use/${encodeURIComponent(match.label)}` : `/use/item/${match.item_id}`);
    return { kind: "known", words: match.item };
  });
  return (
    <Place title="Used off the menu" under="A tray, a late supper: what no menu asked for">
      <Finder
        label="Code, label or item"
        onCode={take}
        onItem={({ id }) => go(`/use/item/${id}`)}
      />
      {problem.value && <Wrong problem={problem.value} />}
    </Place>
  );
}

/** A batch by its label, or an item: then what dies first of it. */
function OfWhat({ first, second }: { first: string; second: string | undefined }) {
  const stock = useReport<StockRow>("stock");
  const items = useReport<ItemRow>("items").said.value?.rows;
  const at = written(now.value);
  const rows = (stock.said.value?.rows ?? []).map((row) => standingAt(row, at));
  const named = second ? undefined : rows.find((each) => isNamed(each, first));
  // a batch that was used up is gone, and what was done of its item is told still
  const known = useRef("");
  known.current = second ?? named?.item_id ?? known.current;
  const id = known.current;
  const doing = useDoing(`/use/${id}`);
  const item = items?.find((each) => each.id === id);
  const batches = named ? [named] : usable(rows, id);
  if (item && batches.length > 0) return <Using item={item} batches={batches} />;
  return (
    <Place title={item?.item ?? "Used off the menu"}>
      <Done doing={doing} />
      <Shown report={stock} what="Looking at the shelves">
        {() => <Nothing>{item && !item.counted ? NOT_COUNTED : NONE}</Nothing>}
      </Shown>
      {item && !item.counted && (
        <p>
          <Link class="touch" to={`/out-of/${item.id}`}>
            We are out of it
          </Link>
        </p>
      )}
      <p>
        <Link class="touch" to="/use">
          Something else
        </Link>
      </p>
    </Place>
  );
}

const NONE = "The books have none of it that may be used. Count the shelf if some stands there.";
const NOT_COUNTED = "Nobody counts it: take what you need.";
