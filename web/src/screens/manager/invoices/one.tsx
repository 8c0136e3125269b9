import { useSignal } from "@preact/signals";
import { now } from "../../../door/clock";
import type { InvoiceDifference, InvoiceRow } from "../../../door/rows";
import { mayGive, mayRead } from "../../../door/session";
import { Button } from "../../../parts/button";
import { Field } from "../../../parts/fields";
import { Form } from "../../../parts/form";
import { type Giving, useGiving } from "../../../parts/giving";
import { Opens } from "../../../parts/opens";
import { go, Link } from "../../../parts/router";
import { Wrong } from "../../../parts/said";
import { money } from "../../../words/amounts";
import { dayName, moment } from "../../../words/time";
import { agreedWords, differenceWords } from "./differs";

/** How an invoice stands, in a sentence. */
function stateWords({ state, difference }: InvoiceRow): string {
  if (state === "agrees") return "It agrees with order and delivery.";
  if (state === "settled") return "It differs, and that is settled.";
  const { minor } = difference;
  if (minor === 0) return "It differs, though its total is right.";
  const apart = money({ ...difference, minor: Math.abs(minor) });
  return `It is ${apart} too ${minor > 0 ? "high" : "low"}.`;
}

/** An invoice: what it comes to, what it should, each difference with what is agreed of it, and its lines. */
export function One({ row, zone }: { row: InvoiceRow; zone: string }) {
  const giving = useGiving();
  const words = useSignal("");
  const open = row.differences.filter(({ is_settled: isSettled }) => !isSettled);
  return (
    <article class="card stack" aria-label={`Invoice ${row.number} of ${row.supplier}`}>
      <header class="stack tight">
        <div class="row ends base">
          <h2>
            {row.supplier}, {row.number}
          </h2>
          <strong class="figure">{money(row.total)}</strong>
        </div>
        <strong>{stateWords(row)}</strong>
        {row.differences.length > 0 && (
          <p>
            It should be <strong class="figure">{money(row.should_be)}</strong>.
          </p>
        )}
        <span class="soft small">
          Dated {dayName(row.dated)}, recorded by {row.person}{" "}
          {moment(row.recorded_at, zone, now.value)}
        </span>
      </header>
      {row.differences.length > 0 && (
        <ul class="lines" aria-label={`What differs on ${row.number}`}>
          {row.differences.map((each) => (
            <Difference
              key={each.difference}
              {...{ row, each, giving, zone, words: words.value }}
            />
          ))}
        </ul>
      )}
      {open.length > 0 && mayGive("settle_invoice") && (
        <Field
          label="What was agreed, and with whom"
          value={words}
          hint="May be left empty; it is kept with what is answered next"
        />
      )}
      {giving.answer.value?.problem && <Wrong problem={giving.answer.value.problem} />}
      <div class="row">
        <Opens figure="Its lines" title={`${row.supplier}, ${row.number}`}>
          <Lines row={row} />
        </Opens>
        {mayGive("withdraw_invoice") && (
          <Opens figure="Withdraw it" title={`${row.supplier}, ${row.number}`}>
            <Withdraw row={row} />
          </Opens>
        )}
        {mayRead("credits") && row.differences.some(({ credit }) => credit) && (
          <Link to="/credits" class="touch">
            Credits expected
          </Link>
        )}
      </div>
    </article>
  );
}

interface DifferenceProps {
  row: InvoiceRow;
  each: InvoiceDifference;
  giving: Giving;
  words: string;
  zone: string;
}

function Difference({ row, each, giving, words, zone }: DifferenceProps) {
  const { busy, decide } = giving;
  const said = differenceWords(each);
  const settle = (agreed: "paid" | "credit") => {
    const one = { difference: each.difference, agreed };
    const answered = words.trim() ? { ...one, words: words.trim() } : one;
    const body = { invoice: row.invoice, differences: [answered] };
    void decide("settle_invoice", body, row.version, `${row.supplier} ${row.number}`);
  };
  const isTooMuch = each.amount.minor > 0;
  return (
    <li class="stack tight">
      <div class="row ends base">
        <span>{said}</span>
        <strong class="figure">{money(each.amount)}</strong>
      </div>
      <Sources each={each} zone={zone} />
      {each.is_settled ? (
        <span>{agreedWords(each)}</span>
      ) : (
        mayGive("settle_invoice") && (
          <div class="row">
            {isTooMuch && (
              <Button onClick={() => settle("credit")} disabled={busy.value}>
                Ask for a credit<span class="unseen">: {said}</span>
              </Button>
            )}
            <Button onClick={() => settle("paid")} disabled={busy.value}>
              Pay it as it is<span class="unseen">: {said}</span>
            </Button>
          </div>
        )
      )}
    </li>
  );
}

/** Where a difference can be looked up: the orders, what the back door said, and the credit. */
function Sources({ each, zone }: { each: InvoiceDifference; zone: string }) {
  const said = [
    ...each.orders.map((order) => `order ${order}`),
    ...each.receipts.map(
      ({ verdict, label, at }) =>
        `${VERDICTS[verdict]}${label ? ` as ${label}` : ""} ${moment(at, zone, now.value)}`,
    ),
    ...(each.credit && !each.credit.is_recorded ? ["a credit is expected"] : []),
  ];
  return said.length > 0 ? <span class="soft small address">{said.join(" · ")}</span> : null;
}

const VERDICTS = { accept: "came", hold: "on hold", refuse: "refused" };

function Lines({ row }: { row: InvoiceRow }) {
  return (
    <ul class="lines" aria-label="Lines of the invoice">
      {row.lines.map((line, place) => (
        <li key={`${line.item ?? line.words} ${place}`} class="row ends base">
          <span>{line.item ? `${line.packs} × ${line.pack}, ${line.item}` : line.words}</span>
          <span class="figure">{money(line.amount)}</span>
        </li>
      ))}
      {row.credits.map((each, place) => (
        <li key={`${each.credit} ${place}`} class="row ends base">
          <span>Taken off{each.note ? `, ${each.note}` : ""}</span>
          <span class="figure">{money({ ...each.amount, minor: -each.amount.minor })}</span>
        </li>
      ))}
      <li class="row ends base">
        <strong>Total</strong>
        <strong class="figure">{money(row.total)}</strong>
      </li>
    </ul>
  );
}

function Withdraw({ row }: { row: InvoiceRow }) {
  const { decide } = useGiving();
  const reason = useSignal("");
  const send = async () => {
    const body = { invoice: row.invoice, reason: reason.value.trim() };
    const words = `${row.supplier} ${row.number}`;
    const answer = await decide("withdraw_invoice", body, row.version, words);
    if (!answer.problem) go("/invoices");
    return answer.problem ?? null;
  };
  return (
    <Form send={send} does="Withdraw the invoice" kind="plain">
      <p>
        It does not count any more: what it is for may be billed again, what it took off is owed
        again, and its number may be recorded again.
      </p>
      <Field label="Why" value={reason} required />
    </Form>
  );
}
