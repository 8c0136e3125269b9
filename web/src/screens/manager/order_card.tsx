import { useSignal } from "@preact/signals";
import { now } from "../../door/clock";
import { type Answer, type Command, give, isGiven, newCommand } from "../../door/command";
import type { OrderRow } from "../../door/rows";
import { Button } from "../../parts/button";
import { Opens } from "../../parts/opens";
import { Link } from "../../parts/router";
import { Said, Wrong } from "../../parts/said";
import { TimeLeft } from "../../parts/time_left";
import { amount, many, money } from "../../words/amounts";
import { moment } from "../../words/time";
import { Alert } from "./alert";
import { Derived } from "./derived";
import { linkOf } from "./desk/link";
import { costOf, type Due } from "./due";
import { reason } from "./reason";

interface OrderCardProps {
  due: Due;
  zone: string;
  /** The version of the supplier that is on the screen: nobody orders twice without seeing it. */
  base: number | undefined;
  /** The order that is placed for that delivery already: it is amended, and no second one follows it. */
  placed: OrderRow | undefined;
  supplierId: string | undefined;
  places: boolean;
}

/** What places it: an order of its own, or the lines added to the one that is open. */
function ordering(due: Due, placed: OrderRow | undefined, base: number | undefined): Command {
  const more = due.rows.map(({ item, pack, packs }) => ({ item, pack, packs }));
  if (placed) {
    const before = placed.lines.map(({ item, pack, packs }) => ({ item, pack, packs }));
    const body = { order: placed.order, lines: [...before, ...more] };
    return newCommand("amend_order", body, placed.version);
  }
  const body = { supplier: due.supplier, delivery: due.delivery, lines: more };
  return newCommand("place_order", body, base);
}

/** One order that is due: its deadline, its lines with their reasons, and placing it. */
export function OrderCard(props: OrderCardProps) {
  const { due, zone, placed, supplierId, places } = props;
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
    made.value = again ?? ordering(due, placed, props.base);
    answer.value = await give(made.value);
    busy.value = false;
  };
  return (
    <article class="card stack">
      <header class="stack tight">
        <div class="row ends base">
          <h3>{due.supplier}</h3>
          <Alert alert={due.alert} />
        </div>
        <TimeLeft at={due.orderBy} now={now.value} zone={zone} what="order by" />
        <div class="row ends base">
          <span>comes {moment(due.delivery, zone, now.value)}</span>
          <span class="figure">{cost && money(cost)}</span>
        </div>
        {placed && <span>added to the order that is placed for it already</span>}
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
      {supplierId && (
        <Link class="touch" to={linkOf({ supplierId, delivery: due.delivery })}>
          Look at all of it and change it<span class="unseen">: {due.supplier}</span>
        </Link>
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
