import { useSignal } from "@preact/signals";
import { asPrinted } from "../../../door/codes/label_numbers";
import type { Problem } from "../../../door/problem";
import { useReport } from "../../../door/reports";
import type { CodeRow, HouseRow, StockRow } from "../../../door/rows";
import { me } from "../../../door/session";
import { Button } from "../../../parts/button";
import { useDoing } from "../../../parts/doing";
import { Done } from "../../../parts/done";
import { Place } from "../../../parts/frame";
import { Link } from "../../../parts/router";
import { Nothing, Wrong } from "../../../parts/said";
import { amount } from "../../../words/amounts";
import { Finder } from "../finder";
import { useHearing } from "../hearing";
import { batchFirst, misread, NEVER_PRINTED, said, standsAgainst } from "./stands_against";

/** A numbered label put on a batch: scan or choose the batch, scan the number. */
export function PutOn() {
  const stock = useReport<StockRow>("stock");
  const house = useReport<HouseRow>("house");
  const batch = useSignal<string | null>(null);
  const item = useSignal<string | null>(null);
  const { problem, hear } = useHearing();
  const doing = useDoing("/labels/put-on");
  /** A number that was doubted: scanned once more it is put on. */
  const doubted = useSignal("");
  const rows = stock.said.value?.rows ?? [];
  const row = rows.find((each) => each.batch === batch.value);
  const choose = (chosen: StockRow) => {
    batch.value = chosen.batch;
    item.value = null;
  };
  const findBatch = hear((code) => {
    const found = batchesIn(code, rows);
    const [only, ...more] = found;
    if (only && more.length === 0) {
      choose(only);
      return { kind: "known", words: only.item };
    }
    item.value = only?.item_id ?? code.matches[0]?.item_id ?? null;
    if (only) return { kind: "which", words: "Which of them?" };
    problem.value = notOn(code);
    return { kind: "unknown", words: "On no batch" };
  });
  const putOn = hear(async (code) => {
    if (!row) return { kind: "unknown", words: "No batch" };
    const label = asPrinted(code.read.label ?? "");
    const known = { stock: rows, printed: house.said.value?.rows[0]?.numbers_printed };
    const against =
      label === null ? misread(code.read.label) : standsAgainst(label, row.batch, known);
    const isSure = against?.code === NEVER_PRINTED && doubted.value === label;
    if (label === null || (against && !isSure)) {
      problem.value = against;
      doubted.value = label ?? "";
      return { kind: "unknown", words: "Not put on" };
    }
    const words = `${label}, ${row.item} ${row.label}`;
    // what is scanned next is the next batch, however soon
    batch.value = null;
    await doing.act("bind_label", { batch: row.batch, label }, words);
    return { kind: "known", words: label };
  });
  return (
    <Place
      title="Put a numbered label on"
      under={row ? undefined : "First the batch, then the number"}
    >
      <Done doing={doing} />
      <div class="narrow stack">
        {row ? (
          <section class="stack" aria-labelledby="number">
            <Named row={row} />
            <h2 id="number">Now the number</h2>
            <Finder
              key="number"
              label="Number on the label"
              hint="Scanned, or typed as it stands there."
              onCode={putOn}
              onItem={() => undefined}
            />
            <Button
              kind="quiet"
              onClick={() => {
                batch.value = null;
              }}
            >
              Another batch
            </Button>
          </section>
        ) : (
          <>
            <Finder
              key="batch"
              label="The batch: code, label or item"
              onCode={findBatch}
              onItem={({ id }) => {
                item.value = id;
              }}
            />
            {item.value && (
              <OfItem rows={rows.filter(({ item_id }) => item_id === item.value)} choose={choose} />
            )}
          </>
        )}
        {problem.value && <Wrong problem={problem.value} />}
        <p>
          <Link class="touch" to="/labels">
            To all labels
          </Link>
        </p>
      </div>
    </Place>
  );
}

/** The batches that a code is on: by label, by number and lot, or all of its item. */
function batchesIn(code: CodeRow, rows: StockRow[]): StockRow[] {
  const named = new Set(code.matches.filter(({ kind }) => kind === "batch").map(({ id }) => id));
  if (named.size > 0) return rows.filter(({ batch }) => named.has(batch));
  const items = new Set(code.matches.map(({ item_id }) => item_id));
  return rows.filter(({ item_id }) => items.has(item_id));
}

function Named({ row }: { row: StockRow }) {
  const mark = me.value?.house.decimal_mark ?? ".";
  return (
    <p class="stack tight">
      <strong>
        {row.item}, <span class="unbroken">{row.label}</span>
      </strong>
      <span class="small">{[amount(row.on_hand, mark), row.area].filter(Boolean).join(" · ")}</span>
      {row.numbered?.length > 0 && (
        <span class="small">On it already: {row.numbered.join(", ")}</span>
      )}
    </p>
  );
}

function OfItem({ rows, choose }: { rows: StockRow[]; choose: (row: StockRow) => void }) {
  if (rows.length === 0) return <Nothing>None of it stands in the house.</Nothing>;
  return (
    <ul class="lines" aria-label="Batches">
      {rows.map((row) => (
        <li key={row.batch}>
          <button class="whole" type="button" onClick={() => choose(row)}>
            <Named row={row} />
          </button>
        </li>
      ))}
    </ul>
  );
}

function notOn({ read }: CodeRow): Problem {
  const onNothing = said(
    "batch_unknown",
    "No batch carries that code.",
    "Type three letters of the item's name instead.",
  );
  return batchFirst(read.label) ?? onNothing;
}
