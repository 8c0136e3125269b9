import { useSignal } from "@preact/signals";
import { type BodyOf, isGiven } from "../../door/command";
import type { SupplierRow } from "../../door/rows";
import { me } from "../../door/session";
import { Field, Select } from "../../parts/fields";
import { Form } from "../../parts/form";
import { useGiving } from "../../parts/giving";
import { Said } from "../../parts/said";
import { minorUnits, money } from "../../words/amounts";

type Body = BodyOf<"set_terms">;
type Sum = SupplierRow["minimum"];

const ORDERS = [
  { value: "", label: "not agreed" },
  { value: "telephone", label: "by telephone" },
  { value: "email", label: "by e-mail" },
  { value: "portal", label: "on their own page" },
  { value: "by_hand", label: "by hand" },
];
const INSTEAD = [
  { value: "", label: "not agreed" },
  { value: "ask_first", label: "asks before sending another thing" },
  { value: "never", label: "sends nothing instead" },
  { value: "allowed", label: "may send another thing" },
];
const FAILING = [
  { value: "no", label: "always" },
  { value: "yes", label: "may fail" },
];

/** What was agreed with a supplier, all of it at once. */
export function Terms({ row }: { row: SupplierRow }) {
  const { answer, decide } = useGiving();
  const minimum = useSignal(written(row.minimum));
  const charge = useSignal(written(row.charge));
  const fails = useSignal(row.may_fail ? "yes" : "no");
  const email = useSignal(row.email ?? "");
  const minutes = useSignal(String(row.send_minutes));
  const given = useSignal(row.order_given ?? "");
  const words = useSignal(row.order_words ?? "");
  const instead = useSignal(row.substitution ?? "");
  const shop = useSignal(row.fallback_shop ?? "");
  const wrong = useSignal<Partial<Record<"minimum" | "charge" | "minutes", string>>>({});
  const send = async () => {
    const [least, each] = [sum(minimum.value), sum(charge.value)];
    const before = /^\d{1,5}$/.test(minutes.value.trim()) ? Number(minutes.value) : null;
    wrong.value = {
      ...(least === null && { minimum: SUM }),
      ...(each === null && { charge: SUM }),
      ...(before === null && { minutes: "Write whole minutes, such as 30." }),
    };
    if (least === null || each === null || before === null) return null;
    const body: Body = {
      supplier: row.id,
      email: email.value.trim() || null,
      minimum: least,
      charge: each,
      may_fail: fails.value === "yes",
      fails_percent: fails.value === "yes" ? row.fails_percent : null,
      send_minutes: before,
      order_given: (given.value || null) as Body["order_given"],
      order_words: words.value.trim() || null,
      substitution: (instead.value || null) as Body["substitution"],
      fallback_shop: shop.value.trim() || null,
    };
    return (await decide("set_terms", body, row.version, row.supplier)).problem ?? null;
  };
  return (
    <Form send={send} does="Keep it" kind="plain">
      {answer.value && isGiven(answer.value) && <Said kind="done">The terms are kept.</Said>}
      <Field
        label="Orders for at least"
        value={minimum}
        hint="Empty: no minimum"
        inputMode="decimal"
        wrong={wrong.value.minimum}
      />
      <Field
        label="Charge for a delivery"
        value={charge}
        hint="Empty: none"
        inputMode="decimal"
        wrong={wrong.value.charge}
      />
      <Select
        label="Comes"
        value={fails}
        options={FAILING}
        hint="Where it may fail, one delivery earlier is planned for."
      />
      <Select label="Takes orders" value={given} options={ORDERS} />
      <Field
        label="In their words"
        value={words}
        hint="A number, an address, a name, what they want to hear"
      />
      <Field label="E-mail" value={email} />
      <Field
        label="Minutes that sending takes"
        value={minutes}
        hint="The deadline is so much before the cut-off."
        inputMode="numeric"
        wrong={wrong.value.minutes}
      />
      <Select
        label="Where something is not to be had"
        value={instead}
        options={INSTEAD}
        hint="Whatever comes instead, its allergens are looked at."
      />
      <Field
        label="If all fails, a shop"
        value={shop}
        hint="With its hours: it is named where an order is missed."
      />
    </Form>
  );
}

const SUM = "Write a sum, such as 25.00.";

/** The sum that was typed; nothing typed is none, undefined; null where it is no sum. */
function sum(typed: string): Sum | undefined | null {
  const currency = me.value?.house.currency ?? "";
  if (!typed.trim()) return undefined;
  const minor = minorUnits(typed, currency);
  return minor === null ? null : { minor, currency };
}

/** `25.00`, without the currency, which is the house's. */
function written(of: Sum): string {
  const mark = me.value?.house.decimal_mark ?? ".";
  return of.minor > 0 ? money(of, mark).replace(/[^\d.,]/g, "") : "";
}
