import { type Signal, useSignal } from "@preact/signals";
import { type BodyOf, isGiven } from "../../../door/command";
import type { ItemRow, StockRow } from "../../../door/rows";
import { me } from "../../../door/session";
import { ActBar, Button } from "../../../parts/button";
import { useDoing } from "../../../parts/doing";
import { Done } from "../../../parts/done";
import { Choice, Field } from "../../../parts/fields";
import { Place } from "../../../parts/frame";
import { Link } from "../../../parts/router";
import { amount, isNothing } from "../../../words/amounts";
import { inUnit } from "../../../words/typed";
import { TimeLeft } from "../batches";
import {
  isEnough,
  lastUsed,
  onShelf,
  type Proposed,
  proposed,
  rememberUsed,
  together,
} from "./which_batch";

interface UsingProps {
  item: ItemRow;
  /** The batches it may be, the likeliest first. */
  batches: StockRow[];
}

const FOR = [
  { value: "", label: "not said" },
  { value: "a tray", label: "a tray" },
  { value: "late supper", label: "late supper" },
  { value: "staff", label: "staff" },
];

/** How much was used of which batch: proposed, so that one tap is enough; and the way back. */
export function Using({ item, batches }: UsingProps) {
  const label = useSignal(batches[0]?.label ?? "");
  const row = batches.find((each) => each.label === label.value) ?? batches[0];
  const what = useSignal("");
  const typed = useSignal<string | null>(null);
  const wrong = useSignal("");
  const doing = useDoing(`/use/${item.id}`);
  if (!row) return null;
  const against = mustNot(row);
  if (against) return <NotToBeUsed item={item} row={row} against={against} />;
  const ways = proposed(item, row, lastUsed(item.id));
  const value = typed.value ?? ways[0]?.quantity.value ?? "";
  const exact = inUnit(value, item.unit);
  const mark = me.value?.house.decimal_mark ?? ".";
  const words = exact === null ? "" : amount({ value: exact, unit: item.unit }, mark);
  const use = async () => {
    wrong.value =
      exact === null || isNothing({ value: exact, unit: item.unit })
        ? "Say how much was used, as a number above nothing."
        : "";
    if (wrong.value || exact === null) return;
    const body: BodyOf<"use"> = {
      // what one batch has not goes from what dies first, whichever that is by then
      ...(isEnough(row, exact) ? { batch: row.batch } : { item: item.id }),
      quantity: { value: exact, unit: item.unit },
      ...(what.value ? { reason: what.value } : {}),
    };
    if (!isGiven(await doing.act("use", body, `${words} ${item.item}`))) return;
    rememberUsed(item.id, exact);
    typed.value = null;
  };
  return (
    <>
      <Place title={item.item} under="Used off the menu">
        <Done doing={doing} />
        <section class="narrow stack line" aria-label="What was used">
          <Which batches={batches} label={label} row={row} />
          <Amounts ways={ways} value={value} typed={typed} unit={item.unit} mark={mark} />
          {exact !== null && !isEnough(row, exact) && (
            <p>
              That is more than {row.label} has: it goes from what dies first, of{" "}
              {amount({ value: together(batches), unit: item.unit }, mark)} in all.
            </p>
          )}
          <Choice legend="What for" value={what} options={FOR} />
          {wrong.value && (
            <div class="said wrong" role="alert">
              <strong>{wrong.value}</strong>
            </div>
          )}
        </section>
        <p>
          <Link class="touch" to="/use">
            Something else
          </Link>
        </p>
      </Place>
      <ActBar>
        <Button kind="main" onClick={() => void use()} disabled={doing.busy.value}>
          Used {words}
        </Button>
      </ActBar>
    </>
  );
}

/** Why nobody uses a batch, in words; null where it may be used. */
function mustNot(row: StockRow): string | null {
  if (!row.usable) return "It is past its last day, or recalled: nobody uses it.";
  if (isNothing({ value: onShelf(row), unit: row.on_hand.unit })) {
    return "None of it may be used: it is on hold, or kept for an emergency. The chef decides.";
  }
  return null;
}

function NotToBeUsed(props: { item: ItemRow; row: StockRow; against: string }) {
  const { item, row, against } = props;
  return (
    <Place title={item.item} under={`Label ${row.label}`}>
      <div class="said wrong" role="alert">
        <strong>{against}</strong>
        <span>If it was eaten all the same, tell the chef at once.</span>
      </div>
      <p>
        <Link class="touch" to={`/shelf/${encodeURIComponent(row.label)}`}>
          What is known of it
        </Link>
      </p>
    </Place>
  );
}

interface WhichProps {
  batches: StockRow[];
  label: Signal<string>;
  row: StockRow;
}

/** From which batch: what dies first is proposed, what is open before it. */
function Which({ batches, label, row }: WhichProps) {
  const zone = me.value?.house.zone ?? "UTC";
  const mark = me.value?.house.decimal_mark ?? ".";
  const has = (each: StockRow) =>
    amount({ value: onShelf(each), unit: each.on_hand.unit }, mark).replace(" ", "\u00a0");
  return (
    <div class="stack tight">
      {batches.length > 1 && (
        <Choice
          legend="From"
          value={label}
          options={batches.map((each) => ({
            value: each.label,
            label: `${each.label}, ${has(each)}${each.state === "sealed" ? "" : `, ${each.state}`}`,
          }))}
        />
      )}
      <p>
        <strong>{row.label}</strong> in {row.area ?? "the kitchen"}, {has(row)}
      </p>
      <TimeLeft row={row} zone={zone} />
    </div>
  );
}

interface AmountsProps {
  ways: Proposed[];
  value: string;
  typed: Signal<string | null>;
  unit: ItemRow["unit"];
  mark: string;
}

/** What may be meant, one tap each; anything else is typed. */
function Amounts({ ways, value, typed, unit, mark }: AmountsProps) {
  const other = useSignal("");
  return (
    <section class="stack tight" aria-label="How much">
      <div class="large-keys">
        {ways.map(({ words, quantity }) => (
          <Button
            key={words}
            pressed={other.value === "" && value === quantity.value}
            onClick={() => {
              other.value = "";
              typed.value = quantity.value;
            }}
          >
            {amount(quantity, mark)} <span class="small">{words}</span>
          </Button>
        ))}
      </div>
      <Field
        label={`Another amount, ${unit === "each" ? "pieces" : unit}`}
        value={other}
        inputMode="decimal"
        enterKeyHint="done"
        onChange={() => {
          typed.value = other.value.trim() || null;
        }}
      />
    </section>
  );
}
