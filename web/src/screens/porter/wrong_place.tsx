import { now } from "../../door/clock";
import { useReport } from "../../door/reports";
import type { HouseRow, ItemRow, StockRow } from "../../door/rows";
import { type Misplaced, misplaced, type Wrong } from "../../door/wrong_place";
import { Button } from "../../parts/button";
import { type Doing, useDoing } from "../../parts/doing";
import { Done } from "../../parts/done";
import { Place } from "../../parts/frame";
import { Link } from "../../parts/router";
import { Nothing, Said } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { amount } from "../../words/amounts";
import { dayName, dayOf } from "../../words/time";
import { toBatch } from "./batches";

const TOLD: Record<Wrong, { title: string; words: string }> = {
  thaws: {
    title: "Frozen food outside a freezer",
    words:
      "Only what is still hard goes back into a freezer. What has gone soft has thawed: it is not frozen again, and the chef decides.",
  },
  warm: {
    title: "Food that is kept cold, in a place that is not",
    words:
      "Nobody here knows how long it stood there. Feel whether it is still cold, and ask the chef before it is used.",
  },
  not_frozen: {
    title: "In a freezer, and never recorded as frozen",
    words:
      "If it is to stay there, open it and say Freeze, so that its date is right. Else move it.",
  },
};

const WRONGS: readonly Wrong[] = ["thaws", "warm", "not_frozen"];

/** What stands where such food is not kept, each with the one move that puts it right. */
export function WrongPlace() {
  const stock = useReport<StockRow>("stock");
  const house = useReport<HouseRow>("house").said.value?.rows[0];
  const items = useReport<ItemRow>("items").said.value?.rows;
  const doing = useDoing("/wrong-place");
  const zone = stock.said.value?.zone ?? "UTC";
  return (
    <Place title="In the wrong place" under={dayName(dayOf(new Date(now.value), zone), true)}>
      <Done doing={doing} />
      <Shown report={stock} what="Looking at the shelves">
        {(rows) =>
          house && items ? (
            <Found all={misplaced(rows, house.areas, items)} doing={doing} />
          ) : (
            <Nothing>
              This phone was not told the storage areas yet. Ask again with the house in reach.
            </Nothing>
          )
        }
      </Shown>
      <p class="soft small">
        Known are only the storage areas: what stands above what on a shelf nobody records. Raw food
        stands below what is ready to eat, and apart from it. Local codes come first.
      </p>
    </Place>
  );
}

function Found({ all, doing }: { all: Misplaced[]; doing: Doing }) {
  if (all.length === 0) {
    return <Nothing>Everything stands where such food is kept, by what is recorded.</Nothing>;
  }
  return (
    <>
      {WRONGS.map((wrong) => {
        const of = all.filter((each) => each.wrong === wrong);
        const { title, words } = TOLD[wrong];
        return (
          of.length > 0 && (
            <section key={wrong} class="stack tight narrow" aria-label={title}>
              <h2>{title}</h2>
              <Said kind="due">{words}</Said>
              <ul class="lines work">
                {of.map((each) => (
                  <Line key={each.row.batch + each.area.id} found={each} doing={doing} />
                ))}
              </ul>
            </section>
          )
        );
      })}
    </>
  );
}

function Line({ found, doing }: { found: Misplaced; doing: Doing }) {
  const { row, area, quantity, into } = found;
  const said = `${row.item} ${row.label}, ${amount(quantity)}`;
  const move = (to: string, words: string) => {
    const body = { batch: row.batch, quantity, area: to, from_area: area.id };
    void doing.act("move", body, `${said}, into the ${words}`);
  };
  return (
    <li class="stack tight">
      <span class="stack tight what">
        <Link class="touch" to={toBatch(row)}>
          <strong>
            {amount(quantity)} {row.item}, {row.label || "no label yet"}
          </strong>
        </Link>
        <span>
          stands in the {area.area}, {row.state.replace("_", " ")}
        </span>
      </span>
      {into ? (
        <Button kind="main" onClick={() => move(into.id, into.area)} disabled={doing.busy.value}>
          Move to the {into.area}
          <span class="unseen">: {said}</span>
        </Button>
      ) : (
        <span>The house has no place for it.</span>
      )}
    </li>
  );
}
