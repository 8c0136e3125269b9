import { useSignal } from "@preact/signals";
import { isGiven } from "../../door/command";
import type { NoticeRow } from "../../door/rows";
import { Field } from "../../parts/fields";
import { Form } from "../../parts/form";
import { useGiving } from "../../parts/giving";
import { Said } from "../../parts/said";

/** The level under which an item is ordered, and up to which: what is proposed stands there, and can be changed. */
export function KeepIn({ row }: { row: NoticeRow }) {
  const { answer, decide } = useGiving();
  const floor = useSignal(written(row.floor_set, row.floor));
  const upTo = useSignal(written(row.order_up_to_set, row.order_up_to));
  const send = async () => {
    const body = {
      item: row.item_id,
      floor: floor.value.trim() || null,
      order_up_to: upTo.value.trim() || null,
    };
    return (await decide("set_par", body, row.version, row.item)).problem ?? null;
  };
  return (
    <Form send={send} does="Keep it in" kind="plain">
      {answer.value && isGiven(answer.value) && <Said kind="done">The level is kept.</Said>}
      <Field label="Keep at least" value={floor} hint="Left empty, no level is kept." />
      <Field label="Order up to" value={upTo} />
    </Form>
  );
}

/** What is set, as it is; what is proposed, up to the next whole gram, millilitre or piece. */
function written(set: NoticeRow["floor"], proposed: NoticeRow["floor"]): string {
  const quantity = set ?? proposed;
  if (!quantity) return "";
  const value = set ? set.value : wholeUp(quantity.value);
  return quantity.unit === "each" ? value : `${value} ${quantity.unit}`;
}

function wholeUp(value: string): string {
  const [whole = "0", rest = ""] = value.split(".");
  return /[1-9]/.test(rest) ? String(BigInt(whole) + 1n) : whole;
}
