import { type Signal, signal, useSignal } from "@preact/signals";
import { useMemo } from "preact/hooks";
import { inTheHouse } from "../../../door/clock";
import type { BodyOf } from "../../../door/command";
import type { OrderRow, PriceRow } from "../../../door/rows";
import { Button } from "../../../parts/button";
import type { Doing } from "../../../parts/doing";
import { Field, Select } from "../../../parts/fields";
import { Form } from "../../../parts/form";
import { minorUnits, money } from "../../../words/amounts";
import { dayName, dayOf } from "../../../words/time";
import { keyOf } from "./draft";

type Ordered = OrderRow["lines"][number];
type Body = BodyOf<"record_confirmation">;

interface Said {
  line: Ordered;
  packs: Signal<number>;
  price: Signal<string>;
  instead: Signal<string>;
}

interface AnswerProps {
  order: OrderRow;
  prices: PriceRow[];
  zone: string;
  doing: Doing;
}

const DAYS = 10;

/** What a supplier said of an order: everything comes as ordered, unless a line, a price or the day is changed here. */
export function RecordAnswer({ order, prices, zone, doing }: AnswerProps) {
  const said = useMemo(() => order.lines.map(saidOf), [order.version]);
  const who = useSignal("");
  const day = useSignal(dayOf(order.delivery, zone));
  const wrong = useSignal<string | null>(null);
  const send = async () => {
    const lines = linesSaid(said, prices, order.supplier_id);
    wrong.value = lines ? null : "Write each price in figures, such as 2.45, or leave it empty.";
    if (!lines) return null;
    const body: Body = { order: order.order, lines };
    if (day.value !== dayOf(order.delivery, zone)) body.delivery = day.value;
    if (who.value.trim()) body.said_by = who.value.trim();
    const answer = await doing.act("record_confirmation", body, order.supplier, order.version);
    return answer.problem ?? null;
  };
  return (
    <Form send={send} does="Write it down" kind="main">
      <ul class="lines" aria-label="Line by line">
        {said.map((each) => (
          <Line
            key={each.line.pack_id}
            said={each}
            sold={prices.filter(({ supplier_id: id }) => id === order.supplier_id)}
          />
        ))}
      </ul>
      <Select label="Comes on" value={day} options={daysFrom(zone, dayOf(order.delivery, zone))} />
      <Field label="Who said it" value={who} />
      {wrong.value && (
        <div class="said wrong" role="alert">
          <strong>{wrong.value}</strong>
        </div>
      )}
    </Form>
  );
}

function saidOf(line: Ordered): Said {
  return { line, packs: signal(line.packs), price: signal(""), instead: signal("") };
}

function daysFrom(zone: string, asked: string): { value: string; label: string }[] {
  const first = inTheHouse(Date.now());
  const days = Array.from({ length: DAYS }, (_, ahead) =>
    dayOf(new Date(first.getTime() + ahead * 86_400_000), zone),
  );
  const all = days.includes(asked) ? days : [asked, ...days];
  return all.map((value) => ({
    value,
    label: value === asked ? `${dayName(value)}, as it stands` : dayName(value),
  }));
}

function Line({ said, sold }: { said: Said; sold: PriceRow[] }) {
  const { line, packs, price, instead } = said;
  const of = `${line.pack} ${line.item}`;
  const step = (by: number) => {
    packs.value = Math.min(line.packs, Math.max(0, packs.value + by));
  };
  const others = sold.filter((row) => keyOf(row) !== keyOf(line));
  const options = [
    { value: "", label: "Nothing" },
    ...others.map((row) => ({ value: row.pack_id, label: `${row.item}, ${row.pack}` })),
  ];
  return (
    <li class="stack tight">
      <strong>{line.item}</strong>
      <div class="stepping">
        <Button onClick={() => step(-1)}>
          <span aria-hidden="true">−</span>
          <span class="unseen">One fewer comes: {of}</span>
        </Button>
        <span class="packs">
          <strong class="figure">{packs.value}</strong> of {line.packs} × {line.pack} come
        </span>
        <Button onClick={() => step(1)}>
          <span aria-hidden="true">+</span>
          <span class="unseen">One more comes: {of}</span>
        </Button>
      </div>
      {packs.value < line.packs && (
        <Select label={`Instead of ${line.item}`} value={instead} options={options} />
      )}
      <details>
        <summary>Another price than {money(line.price)}</summary>
        <Field
          label={`Price of one ${line.pack}, ${line.price.currency}`}
          value={price}
          inputMode="decimal"
        />
      </details>
    </li>
  );
}

/** Every line as the command has it; null where a price cannot be read. */
function linesSaid(said: Said[], prices: PriceRow[], supplier: string): Body["lines"] | null {
  const lines: Body["lines"] = [];
  for (const { line, packs, price, instead } of said) {
    const { item, pack } = line;
    const one: Body["lines"][number] = { item, pack, packs: packs.value };
    const { currency } = line.price;
    if (price.value.trim()) {
      const minor = minorUnits(price.value, currency);
      if (minor === null) return null;
      one.price = { minor, currency };
    }
    const other = prices.find(
      (row) => row.supplier_id === supplier && row.pack_id === instead.value,
    );
    if (other && packs.value < line.packs) {
      one.instead = { item: other.item, pack: other.pack, packs: line.packs - packs.value };
    }
    lines.push(one);
  }
  return lines;
}
