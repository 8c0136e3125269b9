import { useSignal } from "@preact/signals";
import type { BodyOf } from "../../../door/command";
import type { OrderRow } from "../../../door/rows";
import { mayGive, me } from "../../../door/session";
import { Button } from "../../../parts/button";
import type { Doing } from "../../../parts/doing";
import { Choice, Field } from "../../../parts/fields";
import { Form } from "../../../parts/form";
import { sendLetter } from "./letter";
import { HOW } from "./order_words";

type How = BodyOf<"send_order">["how"];

const WAYS = (Object.keys(HOW) as How[]).map((value) => ({ value, label: HOW[value] }));

/** The order as paper, as text and as mail, and writing down how it reached its supplier. */
export function Send({ order, doing }: { order: OrderRow; doing: Doing }) {
  const copied = useSignal<boolean | null>(null);
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(order.text);
      copied.value = true;
    } catch {
      copied.value = false;
    }
  };
  const subject = encodeURIComponent(`Order ${order.order}`);
  const mail = `mailto:${order.email}?subject=${subject}&body=${encodeURIComponent(order.text)}`;
  return (
    <div class="stack">
      <p class="order-text">{order.text}</p>
      <div class="row">
        <a
          class="button"
          href={`/api/orders.pdf?order=${encodeURIComponent(order.order)}`}
          target="_blank"
          rel="noreferrer"
        >
          As a PDF
        </a>
        <Button onClick={() => void copy()}>Copy the text</Button>
        {order.email && (
          <a class="button" href={mail}>
            Write a mail
          </a>
        )}
      </div>
      {copied.value !== null && (
        <p role="status">
          {copied.value
            ? "Copied: it can be pasted into a message."
            : "This device does not let us copy: mark the text above."}
        </p>
      )}
      {mayGive("send_order") && <HowItWent order={order} doing={doing} />}
    </div>
  );
}

function HowItWent({ order, doing }: { order: OrderRow; doing: Doing }) {
  const how = useSignal<string>(order.order_given ?? (order.email ? "email" : "telephone"));
  const whom = useSignal(order.email ?? order.order_words ?? "");
  const send = async () => {
    const body = { order: order.order, how: how.value as How, to_whom: whom.value.trim() };
    const answer = await doing.act("send_order", body, order.supplier, order.version);
    return answer.problem ?? null;
  };
  if (order.sent.some(({ stands }) => stands)) {
    return <p>It is written down as sent. Once it is changed it may be sent again.</p>;
  }
  if (me.value?.house.sends_mail && order.email) {
    const to = order.email;
    return (
      <>
        <Form send={() => sendLetter(order, to)} does={`Send it to ${to} now`} kind="main">
          <p>The house sends it with the PDF, and writes down that it went.</p>
        </Form>
        <details>
          <summary>It was sent another way</summary>
          <Form send={send} does="Write it down" kind="plain">
            <Choice legend="How it was sent" value={how} options={WAYS} />
            <Field label="To whom" value={whom} required />
          </Form>
        </details>
      </>
    );
  }
  return (
    <Form send={send} does="It is sent: write it down" kind="main">
      <Choice legend="How it was sent" value={how} options={WAYS} />
      <Field label="To whom" value={whom} required />
    </Form>
  );
}
