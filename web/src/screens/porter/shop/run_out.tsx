import { useSignal } from "@preact/signals";
import { isGiven } from "../../../door/command";
import { useReport } from "../../../door/reports";
import type { HouseRow, ItemRow, StockRow } from "../../../door/rows";
import { me } from "../../../door/session";
import { plus, sign } from "../../../door/sums";
import { ActBar, Button } from "../../../parts/button";
import { useDoing } from "../../../parts/doing";
import { Done } from "../../../parts/done";
import { Field } from "../../../parts/fields";
import { Place } from "../../../parts/frame";
import { Link } from "../../../parts/router";
import { Shown } from "../../../parts/shown";
import { amount } from "../../../words/amounts";

/** We are out of an item: one tap; and what the books say of it all the same, to be counted to nothing. */
export function RunOut({ item }: { item: ItemRow }) {
  const note = useSignal("");
  const doing = useDoing(`/out-of/${item.id}`);
  const say = async () => {
    const words = note.value.trim();
    const body = { item: item.id, ...(words ? { note: words } : {}) };
    if (isGiven(await doing.act("run_out", body, item.item))) note.value = "";
  };
  return (
    <>
      <Place title={item.item} under="We are out of it">
        <Done doing={doing} />
        <div class="narrow stack">
          {item.counted ? <ByTheBooks item={item} /> : <Level item={item} />}
          <Field
            label="Anything the chef should know"
            value={note}
            enterKeyHint="done"
            hint="It can be left empty."
          />
        </div>
        <p>
          <Link class="touch" to="/out-of">
            To what else is asked for
          </Link>
        </p>
      </Place>
      <ActBar>
        <Button kind="main" onClick={() => void say()} disabled={doing.busy.value}>
          We are out of {item.item}
        </Button>
      </ActBar>
    </>
  );
}

function Level({ item }: { item: ItemRow }) {
  return <p>Nobody counts it. So far it was said to be: {item.level}. It will be out.</p>;
}

/** What the books have of it, area by area; one tap says that nothing of it stands there. */
function ByTheBooks({ item }: { item: ItemRow }) {
  const stock = useReport<StockRow>("stock");
  const areas = useReport<HouseRow>("house").said.value?.rows[0]?.areas ?? [];
  const doing = useDoing(`/out-of/${item.id} books`);
  const count = (area: string) => {
    const id = areas.find((each) => each.area === area)?.id ?? area;
    const lines = [{ item: item.id, quantity: { value: "0", unit: item.unit } }];
    return doing.act("count", { area: id, lines }, `no ${item.item} in ${area}`);
  };
  return (
    <Shown report={stock} what="Looking at the books">
      {(rows) => {
        const stands = placesOf(rows.filter((row) => row.item_id === item.id));
        return (
          <section class="stack tight" aria-labelledby="books-say">
            <h2 id="books-say">
              {stands.length > 0
                ? "The books say there is some"
                : "The books have none of it either"}
            </h2>
            <ul class="lines">
              {stands.map(([area, value]) => (
                <NothingThere
                  key={area}
                  value={value}
                  of={item}
                  area={area}
                  off={doing.busy.value}
                  onCount={() => void count(area)}
                />
              ))}
            </ul>
            <Done doing={doing} />
          </section>
        );
      }}
    </Shown>
  );
}

/** What stands of these batches in each area, as decimal text. */
function placesOf(rows: StockRow[]): [string, string][] {
  const sums = new Map<string, string>();
  for (const [area, { value }] of rows.flatMap((row) => Object.entries(row.areas))) {
    sums.set(area, plus(sums.get(area) ?? "0", value));
  }
  return [...sums].filter(([, value]) => sign(value) !== 0);
}

interface NothingThereProps {
  value: string;
  of: ItemRow;
  area: string;
  off: boolean;
  onCount: () => void;
}

function NothingThere({ value, of, area, off, onCount }: NothingThereProps) {
  const mark = me.value?.house.decimal_mark ?? ".";
  return (
    <li class="row ends">
      <span>
        <strong class="figure">{amount({ value, unit: of.unit }, mark)}</strong> in {area}
      </span>
      <Button onClick={onCount} disabled={off}>
        None there{" "}
        <span class="unseen">
          of {of.item} in {area}: count it as nothing
        </span>
      </Button>
    </li>
  );
}
