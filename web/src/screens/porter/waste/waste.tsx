import { isNamed } from "../../../door/codes/is_on";
import { useReport } from "../../../door/reports";
import type { ItemRow, StockRow } from "../../../door/rows";
import { sign } from "../../../door/sums";
import { useDoing } from "../../../parts/doing";
import { Done } from "../../../parts/done";
import { Place } from "../../../parts/frame";
import { below, go, Link } from "../../../parts/router";
import { Nothing, Wrong } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { amount } from "../../../words/amounts";
import { Finder } from "../finder";
import { HeardWord } from "../heard";
import { carriedBy, useHearing } from "../hearing";
import { Died } from "./died";
import { Wasting } from "./wasting";
import { WastingWithoutBatch } from "./wasting_without_batch";

/** Food that is lost: what died is proposed, anything else is found by its label, a code or three letters. */
export function Waste() {
  const [first, second] = below("/waste");
  return (
    <>
      <HeardWord />
      {first === "no-batch" ? (
        <NoBatch key={second} item={second} />
      ) : first === "item" && second ? (
        <OfItem key={second} item={second} />
      ) : first ? (
        <OfBatch key={first} label={first} />
      ) : (
        <Find />
      )}
    </>
  );
}

function Find() {
  const { problem, hear } = useHearing();
  const doing = useDoing("/waste");
  const stock = useReport<StockRow>("stock");
  const take = hear((code) => {
    const match = carriedBy(code);
    if (!match) return { kind: "unknown", words: "Not known here" };
    go(match.label ? toBatch(match.label) : `/waste/item/${match.item_id}`);
    return { kind: "known", words: match.item };
  });
  return (
    <Place title="Waste" under="What is lost, why, and where it goes">
      <Done doing={doing} />
      <Finder
        label="Code, label or item"
        onCode={take}
        onItem={({ id }) => go(`/waste/item/${id}`)}
      />
      {problem.value && <Wrong problem={problem.value} />}
      <p>
        <Link class="touch" to="/waste/no-batch">
          It came back from the table, or has no label
        </Link>
      </p>
      <Shown report={stock} what="Looking at the shelves">
        {(rows, zone) => <Died rows={rows} zone={zone} doing={doing} />}
      </Shown>
    </Place>
  );
}

/** What no batch is known of, from the table or of an item. */
function NoBatch({ item }: { item: string | undefined }) {
  const items = useReport<ItemRow>("items").said.value?.rows;
  if (!item) return <WastingWithoutBatch />;
  const found = items?.find(({ id }) => id === item);
  return found ? <WastingWithoutBatch item={found} /> : null;
}

function toBatch(label: string): string {
  return `/waste/${encodeURIComponent(label)}`;
}

/** Which batch of an item: each that stands in the house. */
function OfItem({ item }: { item: string }) {
  const stock = useReport<StockRow>("stock");
  const of = (stock.said.value?.rows ?? []).filter((row) => row.item_id === item);
  const rows = of.filter((row) => sign(row.on_hand.value) > 0);
  const [only, ...more] = rows;
  if (only && more.length === 0) return <Wasting row={only} />;
  return (
    <Place title={only?.item ?? "Waste"} under="Which of it is lost?">
      <Shown report={stock} what="Looking at the shelves">
        {() =>
          rows.length === 0 ? (
            <Nothing>The books have none of it. Count the shelf if some stands there.</Nothing>
          ) : (
            <ul class="lines" aria-label="Batches">
              {rows.map((row) => (
                <li key={row.batch}>
                  <Link class="touch" to={toBatch(row.label)}>
                    <strong>{row.label}</strong>, {amount(row.on_hand)}, {row.area ?? "the kitchen"}
                  </Link>
                </li>
              ))}
            </ul>
          )
        }
      </Shown>
      <p>
        <Link class="touch" to={`/waste/no-batch/${item}`}>
          Nobody knows of which batch it is
        </Link>
      </p>
    </Place>
  );
}

function OfBatch({ label }: { label: string }) {
  const stock = useReport<StockRow>("stock");
  const row = stock.said.value?.rows.find((each) => isNamed(each, label));
  if (row) return <Wasting row={row} />;
  return (
    <Place title="Waste" under={`Label ${label}`}>
      <Shown report={stock} what="Looking at the shelves">
        {() => <Nothing>Nothing of it stands in the books any more.</Nothing>}
      </Shown>
      <p>
        <Link class="touch" to="/waste">
          Something else
        </Link>
      </p>
    </Place>
  );
}
