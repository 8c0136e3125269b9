import { useSignal } from "@preact/signals";
import type { OrderRow } from "../../../door/rows";
import type { Doing } from "../../../parts/doing";
import { Field } from "../../../parts/fields";
import { Form } from "../../../parts/form";

/** Nothing of an order is to come; its supplier has to be told by whoever sent it. */
export function CancelIt({ order, doing }: { order: OrderRow; doing: Doing }) {
  const reason = useSignal("");
  const isSent = order.sent.length > 0;
  const send = async () => {
    const body = { order: order.order, reason: reason.value.trim() };
    const answer = await doing.act("cancel_order", body, order.supplier, order.version);
    return answer.problem ?? null;
  };
  return (
    <Form send={send} does="Cancel it" kind="plain">
      {isSent && <p>It was sent already: tell {order.supplier}, too.</p>}
      <Field label="Why" value={reason} required />
    </Form>
  );
}
