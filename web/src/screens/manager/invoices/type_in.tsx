import { useSignal } from "@preact/signals";
import { useMemo } from "preact/hooks";
import { inTheHouse, now } from "../../../door/clock";
import { isGiven } from "../../../door/command";
import type { Problem } from "../../../door/problem";
import type { NotBilledRow, OwedRow, PriceRow } from "../../../door/rows";
import { Button } from "../../../parts/button";
import { Field } from "../../../parts/fields";
import { Form } from "../../../parts/form";
import { Place } from "../../../parts/frame";
import { useGiving } from "../../../parts/giving";
import { go } from "../../../parts/router";
import { Said } from "../../../parts/said";
import { minorUnits, money } from "../../../words/amounts";
import { dayOf, moment } from "../../../words/time";
import { draftDiffers } from "./differs";
import {
  bodyOf,
  type Draft,
  draftOf,
  figures,
  isEmpty,
  isTouched,
  keyOf,
  onIt,
  sumOf,
  typed,
} from "./draft";
import { AddToIt, Goods, InWords } from "./lines";

const IS_DAY = /^\d{4}-\d{2}-\d{2}$/;

interface TypeInProps {
  supplier: { id: string; name: string };
  currency: string;
  deliveries: NotBilledRow[];
  owed: OwedRow[];
  prices: PriceRow[];
  zone: string;
}

/** An invoice is typed in: it begins as the one that would agree, so that only what differs is touched. */
export function TypeIn(props: TypeInProps) {
  const { supplier, currency, deliveries, owed, prices, zone } = props;
  const basis = JSON.stringify([supplier.id, deliveries, owed]);
  const begin = () => ({ basis, draft: draftOf(supplier.id, currency, deliveries, owed) });
  const begun = useSignal(useMemo(begin, []));
  // what comes meanwhile goes into it, unless somebody has typed already
  if (begun.value.basis !== basis && !isTouched(begun.value.draft)) begun.value = begin();
  const { draft } = begun.value;
  const { goods, words } = onIt(draft);
  return (
    <Place title={`Invoice of ${supplier.name}`} under="Change only what is printed otherwise">
      <div class="stack narrow">
        {deliveries.length === 0 && (
          <p class="soft">
            Nothing of theirs came that is not billed yet. Add below what is on the invoice.
          </p>
        )}
        {begun.value.basis !== basis && (
          <Said kind="due">
            <span>What came or is owed has changed since this was begun.</span>
            <div>
              <Button
                onClick={() => {
                  begun.value = begin();
                }}
              >
                Begin anew
              </Button>
            </div>
          </Said>
        )}
        {deliveries.length > 1 && <Which draft={draft} deliveries={deliveries} zone={zone} />}
        <section class="stack tight" aria-label="Lines of the invoice">
          <h2>Lines</h2>
          <ul class="lines">
            {goods.map((line) => (
              <Goods key={line.key} line={line} draft={draft} />
            ))}
            {words.map((line) => (
              <InWords key={line.key} line={line} currency={currency} />
            ))}
          </ul>
          <AddToIt draft={draft} prices={prices} />
        </section>
        <TakenOff draft={draft} />
        <Printed draft={draft} name={supplier.name} begins={lastDay(deliveries, zone)} />
      </div>
    </Place>
  );
}

function lastDay(deliveries: NotBilledRow[], zone: string): string {
  const days = deliveries.map(({ delivery }) => dayOf(delivery, zone)).sort();
  return days.at(-1) ?? dayOf(inTheHouse(Date.now()), zone);
}

interface WhichProps {
  draft: Draft;
  deliveries: NotBilledRow[];
  zone: string;
}

/** Which deliveries the invoice is for; all of them, until one is left out. */
function Which({ draft, deliveries, zone }: WhichProps) {
  const turn = (key: string) => {
    const left = new Set(draft.left.value);
    if (!left.delete(key)) left.add(key);
    draft.left.value = left;
  };
  return (
    <fieldset class="stack tight">
      <legend>
        <h2>Which deliveries it is for</h2>
      </legend>
      <ul class="lines">
        {deliveries.map((row) => (
          <li key={keyOf(row)}>
            <label class="picks">
              <input
                type="checkbox"
                checked={!draft.left.value.has(keyOf(row))}
                onChange={() => turn(keyOf(row))}
              />
              <span>
                {moment(row.delivery, zone, now.value)}
                {row.order === null && ", came without an order"}
              </span>
            </label>
          </li>
        ))}
      </ul>
    </fieldset>
  );
}

/** What the supplier took off: for a credit that is owed, or for something else. */
function TakenOff({ draft }: { draft: Draft }) {
  const { currency, credits } = draft;
  return (
    <section class="stack tight" aria-label="Taken off">
      <h2>Taken off</h2>
      {credits.map(({ key, owed, amount }) => (
        <Field
          key={key}
          label={
            owed
              ? `Taken off for ${owed.about}, ${currency}`
              : `Taken off for something else, ${currency}`
          }
          value={amount}
          inputMode="decimal"
          hint={owed && `${money(owed.value)} is owed; empty: nothing is taken off`}
          wrong={typed(amount, currency) === null ? "Write it in figures, as 4.60." : undefined}
        />
      ))}
    </section>
  );
}

interface PrintedProps {
  draft: Draft;
  name: string;
  begins: string;
}

/** Number, date and total as they are printed; what differs stands above the key before it is given. */
function Printed({ draft, name, begins }: PrintedProps) {
  const { currency } = draft;
  const { decide } = useGiving();
  const number = useSignal("");
  const date = useSignal(begins);
  const total = useSignal("");
  const wrong = useSignal<string | undefined>(undefined);
  const sum = sumOf(draft);
  const stands = total.value.trim() ? minorUnits(total.value, currency) : sum;
  const differs = draftDiffers(draft);
  const send = async (): Promise<Problem | null> => {
    wrong.value = IS_DAY.test(date.value.trim()) ? undefined : "Write it as 2027-05-03.";
    if (wrong.value || stands === null) return null;
    const printed = { number: number.value.trim(), date: date.value.trim(), total: stands };
    const body = bodyOf(draft, printed);
    if (!body) return null;
    const answer = await decide("record_invoice", body, undefined, `${name} ${printed.number}`);
    if (isGiven(answer))
      go(answer.outcome === "applied" ? `/invoices/of/${answer.id}` : "/invoices");
    return answer.problem ?? null;
  };
  return (
    <section class="stack tight" aria-label="As it is printed">
      <h2>As it is printed</h2>
      <Form send={send} does="Record the invoice" doing="Recording">
        <Field label="Number of the invoice" value={number} required />
        <Field
          label="Date of the invoice"
          value={date}
          hint="As 2027-05-03"
          inputMode="numeric"
          wrong={wrong.value}
          required
        />
        <Field
          label={`Total of the invoice, ${currency}`}
          value={total}
          inputMode="decimal"
          hint={sum === null ? undefined : `Empty: ${figures({ minor: sum, currency })}, as above`}
          wrong={stands === null ? "Write it in figures, as 4.60." : undefined}
        />
        {isEmpty(draft) ? (
          <Said kind="due">
            <span>Nothing is on it yet: add above what is printed.</span>
          </Said>
        ) : (
          <Differs lines={differs} />
        )}
        <Sum sum={sum} stands={stands} currency={currency} />
      </Form>
    </section>
  );
}

function Differs({ lines }: { lines: string[] }) {
  if (lines.length === 0) {
    return (
      <Said kind="done">
        <strong>It agrees with what came.</strong>
      </Said>
    );
  }
  return (
    <Said kind="due">
      <strong>It differs from what came as agreed</strong>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </Said>
  );
}

interface SumProps {
  sum: number | null;
  stands: number | null;
  currency: string;
}

/** What the lines come to, and how far that is from the total that is printed. */
function Sum({ sum, stands, currency }: SumProps) {
  if (sum === null || stands === null) return null;
  const apart = sum - stands;
  return (
    <p>
      The lines come to <strong class="figure">{money({ minor: sum, currency })}</strong>
      {apart !== 0 && (
        <strong>
          , {money({ minor: Math.abs(apart), currency })} {apart > 0 ? "more" : "less"} than the
          total
        </strong>
      )}
    </p>
  );
}
