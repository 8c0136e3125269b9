import { useSignal } from "@preact/signals";
import { now } from "../../../door/clock";
import { useReport } from "../../../door/reports";
import type { BudgetRow } from "../../../door/rows";
import { mayGive } from "../../../door/session";
import { Field } from "../../../parts/fields";
import { Form } from "../../../parts/form";
import { useGiving } from "../../../parts/giving";
import { Opens } from "../../../parts/opens";
import { Shown } from "../../../parts/shown";
import { minorUnits, money } from "../../../words/amounts";
import { dayOf } from "../../../words/time";
import { BudgetBar } from "./budget_bar";
import { mondayOf } from "./draft";

/** This week and the next against what the house means to spend, and setting that. */
export function Budget() {
  const report = useReport<BudgetRow>("budget");
  return (
    <section class="stack" aria-label="The week's budget">
      <Shown report={report} what="Adding up the weeks">
        {(rows, zone) => {
          const this_ = mondayOf(dayOf(new Date(now.value), zone));
          const near = rows.filter(({ week }) => week >= this_).slice(0, 2);
          return (
            <>
              {near.map((row) => (
                <BudgetBar key={row.week} row={row} more={0} />
              ))}
              {near[0] && mayGive("set_budget") && (
                <div>
                  <Opens
                    figure={near[0].budget ? "Change the budget" : "Set a budget for a week"}
                    title="What deliveries may cost in a week"
                  >
                    <SetBudget row={near[0]} />
                  </Opens>
                </div>
              )}
            </>
          );
        }}
      </Shown>
    </section>
  );
}

function SetBudget({ row }: { row: BudgetRow }) {
  const { decide } = useGiving();
  const { currency } = row.ordered;
  const sum = useSignal("");
  const wrong = useSignal<string | undefined>(undefined);
  const send = async () => {
    const minor = sum.value.trim() ? minorUnits(sum.value, currency) : undefined;
    wrong.value = minor === null ? "Write it in figures, such as 450 or 450.00." : undefined;
    if (minor === null) return null;
    const body = minor === undefined ? {} : { amount: { minor, currency } };
    return (await decide("set_budget", body, row.version)).problem ?? null;
  };
  return (
    <Form send={send} does="Set it" kind="plain">
      <Field
        label={`For a week, ${currency}`}
        value={sum}
        inputMode="decimal"
        wrong={wrong.value}
        hint={
          row.budget ? `It is ${money(row.budget)}; leave it empty for none.` : "Charges included."
        }
      />
    </Form>
  );
}
