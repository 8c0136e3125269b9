import { useSignal } from "@preact/signals";
import { wasLabel } from "../../door/codes";
import { useReport } from "../../door/reports";
import type { ItemRow, StockRow } from "../../door/rows";
import { Place } from "../../parts/frame";
import { below, go, Link } from "../../parts/router";
import { Nothing, Wrong } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { many } from "../../words/amounts";
import { Batch } from "./batch";
import { Batches } from "./batches";
import { CarriedByNothing } from "./carried_by_nothing";
import { Finder } from "./finder";
import { HeardWord } from "./heard";
import { carriedBy, useHearing } from "./hearing";

/** The shelf: an item by three letters or a code, an area, or one batch by its label. */
export function Shelf() {
  return (
    <>
      <HeardWord />
      <Shelved />
    </>
  );
}

function Shelved() {
  const [first, second] = below("/shelf");
  if (first === "item" && second) return <OfItem item={second} />;
  if (first === "area" && second) return <OfArea area={second} />;
  if (first) return <Batch key={first} label={first} />;
  return <Areas />;
}

/** The field at the top of the shelf; a code opens its item, a label its batch. */
function Find() {
  const { problem, hear } = useHearing();
  const nothing = useSignal("");
  const take = hear(async (code, text) => {
    const match = carriedBy(code);
    if (match) go(match.label ? toBatch(match.label) : `/shelf/item/${match.item_id}`);
    else if (code.read.label && (await wasLabel(code.read.label))) go(toBatch(code.read.label));
    else {
      nothing.value = text;
      return { kind: "unknown", words: "Not known here" };
    }
    return { kind: "known", words: match?.item ?? text };
  });
  return (
    <>
      <Finder
        label="Code, label or item"
        onCode={(text) => {
          nothing.value = "";
          return take(text);
        }}
        onItem={(item) => go(`/shelf/item/${item.id}`)}
      />
      {problem.value && <Wrong problem={problem.value} />}
      {nothing.value && <CarriedByNothing code={nothing.value} />}
    </>
  );
}

function toBatch(label: string): string {
  return `/shelf/${encodeURIComponent(label)}`;
}

function Areas() {
  const stock = useReport<StockRow>("stock");
  return (
    <Place title="Shelf" under="What stands where, and how long it has left">
      <Find />
      <Shown report={stock} what="Looking at the shelves">
        {(rows) => (
          <section class="narrow stack tight" aria-labelledby="by-area">
            <h2 id="by-area">By storage area</h2>
            <ul class="lines">
              {areasOf(rows).map(([area, count]) => (
                <li key={area}>
                  <Link to={`/shelf/area/${encodeURIComponent(area)}`}>
                    <span class="row ends">
                      <strong>{area}</strong>
                      <span class="soft">{many(count, "batch", "batches")}</span>
                    </span>
                  </Link>
                </li>
              ))}
            </ul>
          </section>
        )}
      </Shown>
    </Place>
  );
}

function areasOf(rows: StockRow[]): [string, number][] {
  const counts = new Map<string, number>();
  for (const area of rows.flatMap((row) => Object.keys(row.areas))) {
    counts.set(area, (counts.get(area) ?? 0) + 1);
  }
  return [...counts].sort(([a], [b]) => a.localeCompare(b));
}

function OfItem({ item }: { item: string }) {
  const stock = useReport<StockRow>("stock");
  const items = useReport<ItemRow>("items").said.value;
  const found = items?.rows.find(({ id }) => id === item);
  return (
    <Place title={found?.item ?? "An item"} under={found && besideItem(found)}>
      <Find />
      <Shown report={stock} what="Looking at the shelves">
        {(rows, zone) => {
          const batches = rows.filter((row) => row.item === found?.item);
          if (items && batches.length === 0)
            return <Nothing>None of it stands in the house.</Nothing>;
          return <Batches rows={batches} zone={zone} named={false} />;
        }}
      </Shown>
      <p class="row">
        <Link class="touch" to={`/use/item/${item}`}>
          Used off the menu
        </Link>
        <Link class="touch" to={`/out-of/${item}`}>
          We are out of it
        </Link>
      </p>
      <Back />
    </Place>
  );
}

function besideItem(item: ItemRow): string {
  const level = item.level ? `nobody counts it: ${item.level}` : "";
  return [item.group, item.area, level].filter(Boolean).join(" · ");
}

function OfArea({ area }: { area: string }) {
  const stock = useReport<StockRow>("stock");
  return (
    <Place title={area} under="What stands here, by what dies first">
      <Find />
      <Shown report={stock} what="Looking at the shelves">
        {(rows, zone) => (
          <Batches
            rows={rows.filter((row) => area in row.areas).sort(diesFirst)}
            zone={zone}
            named
          />
        )}
      </Shown>
      <Back />
    </Place>
  );
}

/** What is never used after it before what is only flagged; what has no date last (AL1). */
function diesFirst(one: StockRow, other: StockRow): number {
  const ends = (row: StockRow) => row.usable_until ?? row.good_until ?? "9999";
  return ends(one).localeCompare(ends(other)) || one.item.localeCompare(other.item);
}

function Back() {
  return (
    <p>
      <Link class="touch" to="/shelf">
        To every storage area
      </Link>
    </p>
  );
}
