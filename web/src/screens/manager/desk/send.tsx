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
  const main = mainKey(order);
  return (
    <div class="stack">
      <p class="order-text">{order.text}</p>
      {main && (
        <a class="button main" href={main.href} {...(main.leaves && LEAVES)}>
          {main.label}
        </a>
      )}
      {order.order_words && <p>What they say of taking orders: {order.order_words}</p>}
      <div class="row">
        {order.order_given !== "by_hand" && (
          <a class="button" href={pdfOf(order)} {...LEAVES}>
            As a PDF
          </a>
        )}
        <Button onClick={() => void copy()}>Copy the text</Button>
        {order.email && main?.href !== mailTo(order) && (
          <a class="button" href={mailTo(order)}>
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
      {mayGive("send_order") && (
        <HowItWent order={order} doing={doing} kind={main ? "plain" : "main"} />
      )}
    </div>
  );
}

const LEAVES = { target: "_blank", rel: "noreferrer" };

const pdfOf = ({ order }: OrderRow) => `/api/orders.pdf?order=${encodeURIComponent(order)}`;

function mailTo({ email, order, text }: OrderRow): string {
  const subject = encodeURIComponent(`Order ${order}`);
  return `mailto:${email}?subject=${subject}&body=${encodeURIComponent(text)}`;
}

interface MainKey {
  href: string;
  label: string;
  /** It opens a page beside ours. */
  leaves: boolean;
}

/** What gives the order in the way its supplier takes it; null where the house sends it, or only a person can. */
function mainKey(order: OrderRow): MainKey | null {
  const words = order.order_words ?? "";
  switch (order.order_given) {
    case "telephone": {
      const [number] = /\+?\d[\d ()/-]{4,}\d/.exec(words) ?? [];
      const dialled = number?.replace(/[^\d+]/g, "");
      return number
        ? { href: `tel:${dialled}`, label: `Telephone ${number}`, leaves: false }
        : null;
    }
    case "portal": {
      const [page] = /https:\/\/[^\s,;]+/.exec(words) ?? [];
      return page ? { href: page, label: "Open their page", leaves: true } : null;
    }
    case "by_hand":
      return { href: pdfOf(order), label: "Print it", leaves: true };
    default:
      return order.email && !isSentByHouse(order)
        ? { href: mailTo(order), label: "Write a mail", leaves: false }
        : null;
  }
}

/** Whether the house hands it to its mail server: it has one, and the supplier takes letters. */
function isSentByHouse({ email, order_given }: OrderRow): boolean {
  const byMail = order_given === null || order_given === "email";
  return Boolean(me.value?.house.sends_mail && email && byMail);
}

interface HowItWentProps {
  order: OrderRow;
  doing: Doing;
  kind: "main" | "plain";
}

function HowItWent({ order, doing, kind }: HowItWentProps) {
  const how = useSignal<string>(order.order_given ?? (order.email ? "email" : "telephone"));
  const whom = useSignal(toWhom(order));
  const send = async () => {
    const body = { order: order.order, how: how.value as How, to_whom: whom.value.trim() };
    const answer = await doing.act("send_order", body, order.supplier, order.version);
    return answer.problem ?? null;
  };
  if (order.sent.some(({ stands }) => stands)) {
    return <p>It is written down as sent. Once it is changed it may be sent again.</p>;
  }
  const to = order.email;
  const letter = me.value?.house.sends_mail && to && (
    <Form
      send={() => sendLetter(order, to)}
      does={`Send it to ${to} now`}
      kind={isSentByHouse(order) ? "main" : "plain"}
    >
      <p>The house sends it with the PDF, and writes down that it went.</p>
    </Form>
  );
  const written = (does: string, of: "main" | "plain") => (
    <Form send={send} does={does} kind={of}>
      <Choice legend="How it was sent" value={how} options={WAYS} />
      <Field label="To whom" value={whom} required />
    </Form>
  );
  if (isSentByHouse(order)) {
    return (
      <>
        {letter}
        <details>
          <summary>It was sent another way</summary>
          {written("Write it down", "plain")}
        </details>
      </>
    );
  }
  return (
    <>
      {written("It is sent: write it down", kind)}
      {letter && (
        <details>
          <summary>Send it by e-mail after all</summary>
          {letter}
        </details>
      )}
    </>
  );
}

/** Whom it goes to by the way they take orders: an address for letters, else what they say of it. */
function toWhom({ email, order_given, order_words }: OrderRow): string {
  const byMail = order_given === null || order_given === "email";
  return (byMail ? (email ?? order_words) : (order_words ?? email)) ?? "";
}
