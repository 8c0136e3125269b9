import { useSignal } from "@preact/signals";
import { now } from "../../door/clock";
import { type BodyOf, isGiven } from "../../door/command";
import { useReport } from "../../door/reports";
import type { PriceRow, StandingOrderRow, SupplierRow } from "../../door/rows";
import { Button } from "../../parts/button";
import { Choice, Field, Select } from "../../parts/fields";
import { Form } from "../../parts/form";
import { useGiving } from "../../parts/giving";
import { Nothing, Said } from "../../parts/said";
import { moment } from "../../words/time";
import { packsFound } from "./packs_found";
import { capital } from "./weekdays";

type Body = BodyOf<"set_standing_order">;
type Line = Pick<
  StandingOrderRow["lines"][number],
  "weekday" | "item" | "pack" | "packs" | "words" | "amount"
>;

const EMPTY = [
  { value: "stops", label: "we are told to stop it" },
  { value: "comes", label: "it comes all the same" },
];

/** What a supplier brings of itself, in a sentence; nothing where it brings nothing. */
export function Standing({ of }: { of: string }) {
  const rows = useReport<StandingOrderRow>("standing-orders").said.value?.rows;
  const lines = rows?.find(({ supplier_id: id }) => id === of)?.lines ?? [];
  if (lines.length === 0) return null;
  return <p>Standing order. {lines.map(lineWords).join("; ")}.</p>;
}

/** What a supplier brings of itself, until it is told otherwise: all of it is agreed and kept at once. */
export function StandingOrder({ row, zone }: { row: SupplierRow; zone: string }) {
  const standing = useReport<StandingOrderRow>("standing-orders").said.value?.rows.find(
    ({ supplier_id: id }) => id === row.id,
  );
  const prices = useReport<PriceRow>("prices").said.value?.rows ?? [];
  const changed = useSignal<Line[] | null>(null);
  const { answer, decide } = useGiving();
  const empty = useSignal(standing?.when_empty ? "comes" : "stops");
  const lines = changed.value ?? standing?.lines ?? [];
  const set = (next: Line[]) => {
    changed.value = next;
    answer.value = null;
  };
  const send = async () => {
    const given = await decide(
      "set_standing_order",
      bodyOf(row.id, lines, empty.value === "comes"),
      row.version,
      row.supplier,
    );
    if (isGiven(given)) changed.value = null;
    return given.problem ?? null;
  };
  if (row.deliveries.length === 0) return <Nothing>Set their delivery days first.</Nothing>;
  return (
    <div class="stack">
      <p class="soft">
        Milk, bread, papers: agreed once, they come until somebody says otherwise. Orders are
        written four weeks ahead by themselves.
      </p>
      {lines.length === 0 && <Nothing>They bring nothing of themselves.</Nothing>}
      <ul class="lines" aria-label="Standing order">
        {lines.map((line) => (
          <li key={lineWords(line)} class="row ends">
            <span>{lineWords(line)}</span>
            <Button onClick={() => set(lines.filter((each) => each !== line))}>
              Take away <span class="unseen">{lineWords(line)}</span>
            </Button>
          </li>
        ))}
      </ul>
      <AddStanding row={row} prices={prices} onAdd={(line) => set([...lines, line])} />
      {standing && standing.coming.length > 0 && (
        <p class="soft">
          Written ahead:{" "}
          {standing.coming.map(({ delivery }) => moment(delivery, zone, now.value)).join(", ")}.
        </p>
      )}
      <Form send={send} does={`${row.supplier} knows: keep it`}>
        {answer.value && isGiven(answer.value) && (
          <Said kind="done">
            The standing order is kept. Orders ahead that nobody changed follow.
          </Said>
        )}
        <Choice legend="When nobody is in the house" value={empty} options={EMPTY} />
      </Form>
    </div>
  );
}

function bodyOf(supplier: string, lines: Line[], whenEmpty: boolean): Body {
  return {
    supplier,
    lines: lines.flatMap(({ weekday, item, pack, packs }) =>
      item && pack && packs ? [{ weekday, item, pack, packs }] : [],
    ),
    free: lines.flatMap(({ weekday, words, amount }) =>
      words ? [{ weekday, words, amount }] : [],
    ),
    when_empty: whenEmpty,
  };
}

interface AddProps {
  row: SupplierRow;
  prices: PriceRow[];
  onAdd: (line: Line) => void;
}

function AddStanding({ row, prices, onAdd }: AddProps) {
  const days = [...new Set(row.deliveries.map(({ weekday }) => weekday))];
  const weekday = useSignal<string>(days[0] ?? "");
  const much = useSignal("1");
  const typed = useSignal("");
  const words = typed.value.trim();
  const packs = /^[1-9]\d{0,4}$/.test(much.value.trim()) ? Number(much.value) : null;
  const add = (of: Partial<Line>) => {
    onAdd({
      weekday: weekday.value,
      item: null,
      pack: null,
      packs: null,
      words: null,
      amount: null,
      ...of,
    });
    typed.value = "";
  };
  return (
    <div class="stack tight">
      <Select
        label="Comes on"
        value={weekday}
        options={days.map((value) => ({ value, label: capital(value) }))}
      />
      <Field label="How many" value={much} inputMode="numeric" />
      <Field label="Of what" value={typed} hint="A few letters, or in your own words" />
      {packs &&
        packsFound(row.id, prices, words).map((each) => (
          <Button
            key={each.pack_id}
            onClick={() => add({ item: each.item, pack: each.pack, packs })}
          >
            {packs} × {each.pack} {each.item}
          </Button>
        ))}
      {words && (
        <Button onClick={() => add({ words, amount: much.value.trim() || null })}>
          {much.value.trim()} “{words}” in words
        </Button>
      )}
    </div>
  );
}

function lineWords(line: Line): string {
  const what = line.words
    ? [line.amount, line.words].filter(Boolean).join(" × ")
    : `${line.packs} × ${line.pack} ${line.item}`;
  return `${capital(line.weekday)}: ${what}`;
}
