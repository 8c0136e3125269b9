import { type Signal, useSignal } from "@preact/signals";
import { answering } from "../../../door/line";
import { useReport } from "../../../door/reports";
import type { LabelRow } from "../../../door/rows";
import { me } from "../../../door/session";
import { ActBar } from "../../../parts/button";
import { useDoing } from "../../../parts/doing";
import { Field } from "../../../parts/fields";
import { Place } from "../../../parts/frame";
import { Link } from "../../../parts/router";
import { Nothing, Said } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { amount, many } from "../../../words/amounts";
import { PaperFields, paperOf, startAt, usePaper } from "./on_paper";
import { pdf } from "./paper";
import { printedOn } from "./remembered";

const MOST_COPIES = 50;

/** Labels to print: of what has none yet, or of one batch. */
export function Print({ label }: { label: string | undefined }) {
  const report = useReport<LabelRow>("labels");
  return (
    <Place title="Labels" under="What is decanted, picked, made or came without a code">
      <nav class="ways" aria-label="Numbered labels">
        <Link class="button" to="/labels/put-on">
          Put a numbered label on
        </Link>
        <Link class="button quiet" to="/labels/numbers">
          Print numbers
        </Link>
      </nav>
      {!answering.value && (
        <Said kind="due">
          <strong>Printing needs the house, and it does not answer.</strong>
          <span>A numbered label can be put on without it.</span>
        </Said>
      )}
      <Shown report={report} what="Looking at what has no label">
        {(rows) => (
          <Choose rows={rows.filter((row) => (label ? row.label === label : row.wants))} />
        )}
      </Shown>
    </Place>
  );
}

/** Which of them, on what paper; all at first. */
function Choose({ rows }: { rows: LabelRow[] }) {
  const left = useSignal<ReadonlySet<string>>(new Set());
  const copies = useSignal("1");
  const on = usePaper();
  const doing = useDoing("/labels");
  if (rows.length === 0) {
    return (
      <Nothing>Everything that needs a label has one. Any other is printed from its batch.</Nothing>
    );
  }
  const chosen = rows.filter(({ batch }) => !left.value.has(batch));
  const each = Number(copies.value);
  const [paper, start] = [paperOf(on), startAt(on)];
  const isReady =
    paper &&
    start &&
    chosen.length > 0 &&
    Number.isInteger(each) &&
    each >= 1 &&
    each <= MOST_COPIES;
  const print = () => {
    if (!paper || !start) return;
    printedOn(paper, start, chosen.length * each);
    const words = chosen.map((row) => `${row.item} ${row.label}`).join(", ");
    void doing.act("print_labels", { batches: chosen.map(({ batch }) => batch) }, words);
  };
  return (
    <>
      <div class="columns">
        <Batches rows={rows} left={left} />
        <fieldset class="stack">
          <legend class="unseen">On what</legend>
          <PaperFields on={on} />
          <Field
            label="How many of each"
            value={copies}
            inputMode="numeric"
            wrong={
              each >= 1 && each <= MOST_COPIES ? undefined : `A number from 1 to ${MOST_COPIES}.`
            }
          />
        </fieldset>
      </div>
      <ActBar>
        {isReady ? (
          <a
            class="button main"
            target="_blank"
            rel="noreferrer"
            href={pdf(paper, start, [
              ["copies", String(each)],
              ...chosen.map(({ batch }): [string, string] => ["batch", batch]),
            ])}
            onClick={print}
          >
            Print {many(chosen.length * each, "label")}
          </a>
        ) : (
          <button class="button main" type="button" disabled>
            Print labels
          </button>
        )}
      </ActBar>
    </>
  );
}

function Batches({ rows, left }: { rows: LabelRow[]; left: Signal<ReadonlySet<string>> }) {
  const mark = me.value?.house.decimal_mark ?? ".";
  const turn = (batch: string) => {
    const now = new Set(left.value);
    if (!now.delete(batch)) now.add(batch);
    left.value = now;
  };
  return (
    <fieldset>
      <legend class="legend">Which batches</legend>
      <div class="choices long">
        {rows.map((row) => (
          <label key={row.batch}>
            <input
              type="checkbox"
              checked={!left.value.has(row.batch)}
              onChange={() => turn(row.batch)}
            />
            <span class="stack tight">
              <strong>
                {row.item}, {amount(row.on_hand, mark)}
              </strong>
              <span class="small">{[row.label, ...row.dates.slice(0, 1)].join(" · ")}</span>
              <span class="small soft">
                {[DONE[row.done ?? ""], row.area].filter(Boolean).join(" · ")}
              </span>
            </span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

const DONE: Record<string, string> = {
  decant: "decanted",
  freeze: "frozen",
  harvest: "from the garden",
  make: "made here",
  open: "opened",
  receive: "came today",
  shop_run: "from the shop",
  thaw: "thawed",
  vacuum_pack: "vacuum packed",
};
