import { useSignal } from "@preact/signals";
import { now } from "../../door/clock";
import type { BodyOf } from "../../door/command";
import { useReport } from "../../door/reports";
import type { CreditRow } from "../../door/rows";
import { Field } from "../../parts/fields";
import { Form } from "../../parts/form";
import { Place } from "../../parts/frame";
import { useGiving } from "../../parts/giving";
import { Opens } from "../../parts/opens";
import { Link } from "../../parts/router";
import { Nothing } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { amount, listed, minorUnits, money } from "../../words/amounts";
import { moment } from "../../words/time";

/** What suppliers owe for goods that did not come whole, until their credit notes are recorded. */
export function Credits() {
  const report = useReport<CreditRow>("credits");
  return (
    <Place title="Credits expected" under="For what did not come, or was billed too high">
      <Link class="touch" to="/invoices">
        Invoices
      </Link>
      <Shown report={report} what="Looking for open credits">
        {(rows, zone) =>
          rows.length === 0 ? (
            <Nothing>No supplier owes anything.</Nothing>
          ) : (
            <div class="stack narrow">
              {rows.map((row) => (
                <Credit key={row.credit} row={row} zone={zone} />
              ))}
            </div>
          )
        }
      </Shown>
    </Place>
  );
}

function Credit({ row, zone }: { row: CreditRow; zone: string }) {
  return (
    <article class="card stack">
      <header class="stack tight">
        <div class="row ends base">
          <h2>{row.supplier}</h2>
          <strong class="figure">{money(row.value)}</strong>
        </div>
        <p>{row.words ?? missingWords(row)}</p>
        <p class="soft">
          {row.delivery
            ? `Delivery of ${moment(row.delivery, zone, now.value)}`
            : `Invoice ${row.invoice}`}
          {row.driver && `, driven by ${row.driver}`} · open since{" "}
          {moment(row.opened_at, zone, now.value)}
        </p>
      </header>
      <Note row={row} />
      <Opens figure="Write it off" title={`${row.item ?? row.words} of ${row.supplier}`}>
        <WriteOff row={row} />
      </Opens>
    </article>
  );
}

/** What of a line did not come, and why. */
function missingWords(row: CreditRow): string {
  const { counted, missing, ordered } = row;
  const much =
    counted && missing && ordered ? `${amount(missing)} of ${amount(ordered)}` : row.pack;
  return `${row.item}: ${much} ${whyWords(row)}`;
}

/** Why, as it was said at the back door. */
function whyWords(row: CreditRow): string {
  const refused = row.refused.filter(Boolean);
  const parts = [
    ...(row.refused.length ? [`refused${refused.length ? ` (${listed(refused)})` : ""}`] : []),
    ...(row.instead.length ? [`${listed(row.instead)} came instead`] : []),
  ];
  return parts.length ? listed(parts) : "did not come";
}

function Note({ row }: { row: CreditRow }) {
  const { decide } = useGiving();
  const sum = useSignal("");
  const note = useSignal("");
  const wrong = useSignal<string | undefined>(undefined);
  const send = async () => {
    const minor = minorUnits(sum.value, row.value.currency);
    wrong.value = minor === null ? `Write it as ${money(row.value)}, in figures.` : undefined;
    if (minor === null) return null;
    const body: BodyOf<"record_credit"> = {
      credit: row.credit,
      amount: { minor, currency: row.value.currency },
      note: note.value.trim(),
    };
    return (await decide("record_credit", body, row.version)).problem ?? null;
  };
  return (
    <Form send={send} does="Record the credit note" kind="plain">
      <Field
        label={`Amount credited, ${row.value.currency}`}
        value={sum}
        inputMode="decimal"
        wrong={wrong.value}
        required
      />
      <Field label="Number of the note" value={note} required />
    </Form>
  );
}

function WriteOff({ row }: { row: CreditRow }) {
  const { decide } = useGiving();
  const reason = useSignal("");
  const send = async () => {
    const body = { credit: row.credit, reason: reason.value.trim() };
    return (await decide("record_credit", body, row.version)).problem ?? null;
  };
  return (
    <Form send={send} does="Write off" kind="plain">
      <Field label="Why no note is expected any more" value={reason} required />
    </Form>
  );
}
