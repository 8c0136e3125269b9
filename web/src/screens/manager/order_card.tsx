import { useSignal } from "@preact/signals";
import { now } from "../../door/clock";
import { type Answer, type Command, give, isGiven, newCommand } from "../../door/command";
import type { Alert } from "../../door/rows";
import { Button } from "../../parts/button";
import { Opens } from "../../parts/opens";
import { Said, Wrong } from "../../parts/said";
import { TimeLeft } from "../../parts/time_left";
import { amount, many, money } from "../../words/amounts";
import { moment } from "../../words/time";
import { Derived } from "./derived";
import { costOf, type Due, reason } from "./orders";

const ALERTS: Record<Alert, string> = {
  none: "not yet due",
  open: "order now",
  last_call: "last call",
  missed: "too late",
};

interface OrderCardProps {
  due: Due;
  zone: string;
  /** The version of the supplier that is on the screen: nobody orders twice without seeing it. */
  base: number | undefined;
  places: boolean;
}

/** One order that is due: its deadline, its lines with their reasons, and placing it. */
export function OrderCard({ due, zone, base, places }: OrderCardProps) {
  const open = useSignal(due.alert !== "none");
  const made = useSignal<Command | null>(null);
  const answer = useSignal<Answer | null>(null);
  const busy = useSignal(false);
  const cost = costOf(due);
  const done = answer.value !== null && isGiven(answer.value);
  const place = async () => {
    busy.value = true;
    // what was refused is decided anew; what was not answered is sent again as it is
    const again = answer.value?.problem?.status === 0 ? made.value : null;
    const lines = due.rows.map(({ item, pack, packs }) => ({ item, pack, packs }));
    const body = { supplier: due.supplier, delivery: due.delivery, lines };
    made.value = again ?? newCommand("place_order", body, base);
    answer.value = await give(made.value);
    busy.value = false;
  };
  return (
    <article class="card stack">
      <header class="stack tight">
        <div class="row ends base">
          <h3>{due.supplier}</h3>
          <span class={`alert ${due.alert}`}>{ALERTS[due.alert]}</span>
        </div>
        <TimeLeft at={due.orderBy} now={now.value} zone={zone} what="order by" />
        <div class="row ends base">
          <span>comes {moment(due.delivery, zone, now.value)}</span>
          <span class="figure">{cost && money(cost)}</span>
        </div>
      </header>
      {open.value ? (
        <ul class="lines">
          {due.rows.map((row) => (
            <li key={row.item + row.pack} class="order-line">
              <Opens
                figure={`${row.packs} × ${row.pack}`}
                title={`${row.packs} × ${row.pack} ${row.item}`}
              >
                <Derived row={row} zone={zone} />
              </Opens>
              <span>
                {row.item}
                {row.at_risk && <strong> may not come</strong>}
                <span class="soft small">
                  {" "}
                  {amount(row.net)} lacking for {row.because.map(reason).join("; ")}
                </span>
              </span>
              <span class="figure">{row.cost && money(row.cost)}</span>
            </li>
          ))}
        </ul>
      ) : (
        <Button
          kind="quiet"
          onClick={() => {
            open.value = true;
          }}
        >
          {many(due.rows.length, "line")}, and why
        </Button>
      )}
      {answer.value?.problem && <Wrong problem={answer.value.problem} />}
      {done && (
        <Said kind="done">
          <strong>Ordered, and written down.</strong>
        </Said>
      )}
      {places && open.value && !done && (
        <Button kind="main" onClick={() => void place()} disabled={busy.value}>
          {busy.value ? "Writing it down" : `It is ordered: ${many(due.rows.length, "line")}`}
        </Button>
      )}
    </article>
  );
}
