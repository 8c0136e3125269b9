import { now } from "../../../door/clock";
import type { StockRow } from "../../../door/rows";
import { Button } from "../../../parts/button";
import type { Doing } from "../../../parts/doing";
import { Link } from "../../../parts/router";
import { amount } from "../../../words/amounts";
import { moment } from "../../../words/time";
import { died, lastDestination } from "./why";

interface DiedProps {
  rows: StockRow[];
  zone: string;
  doing: Doing;
}

/** What is past its last usable moment: proposed, batch by batch; nothing is written off by itself. */
export function Died({ rows, zone, doing }: DiedProps) {
  const over = died(rows, new Date(now.value));
  if (over.length === 0) return <p class="soft">Nothing in the books is past its last day.</p>;
  const destination = lastDestination();
  const agree = (row: StockRow) => {
    const body = {
      batch: row.batch,
      quantity: row.on_hand,
      reason: "out of date",
      destination,
    };
    const words = `${amount(row.on_hand)} ${row.item} ${row.label}, out of date, to ${destination}`;
    void doing.act("waste", body, words);
  };
  return (
    <section class="stack" aria-label="Past its last day">
      <h2>Past its last day</h2>
      <p class="soft small">
        Look at the label in your hand first. With one tap it goes to: {destination}.
      </p>
      <ul class="lines">
        {over.map((row) => (
          <li key={row.batch} class="stack tight">
            <span class="row ends base">
              <Link class="touch" to={`/waste/${encodeURIComponent(row.label)}`}>
                <strong>
                  {row.item}, {row.label}
                </strong>
              </Link>
              <span class="figure">{amount(row.on_hand)}</span>
            </span>
            <span class="small">
              {row.area ?? "the kitchen"}, not to be used since{" "}
              {row.usable_until && moment(row.usable_until, zone, now.value)}
            </span>
            <span class="row">
              <Button onClick={() => agree(row)} disabled={doing.busy.value}>
                Agree: to waste
                <span class="unseen">
                  , {row.item} {row.label}
                </span>
              </Button>
              <Link class="touch" to="/counts">
                Not so: count it
                <span class="unseen">
                  , {row.item} {row.label}
                </span>
              </Link>
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
