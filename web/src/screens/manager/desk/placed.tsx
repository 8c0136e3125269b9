import { now } from "../../../door/clock";
import type { OrderRow, PriceRow } from "../../../door/rows";
import { mayGive } from "../../../door/session";
import type { Doing } from "../../../parts/doing";
import { Opens } from "../../../parts/opens";
import { Link } from "../../../parts/router";
import { moment } from "../../../words/time";
import { CancelIt } from "./cancel";
import { answerWords, sentWords } from "./order_words";
import { RecordAnswer } from "./record_answer";
import { Send } from "./send";

interface PlacedProps {
  order: OrderRow;
  prices: PriceRow[];
  zone: string;
  doing: Doing;
  /** Whether something was changed on this screen that is not on the order yet. */
  isChanged: boolean;
}

/** An order that is placed: how it was sent, what the supplier said, and what is to be done about it. */
export function Placed({ order, prices, zone, doing, isChanged }: PlacedProps) {
  return (
    <section class="card stack narrow" aria-label={`Order ${order.order}`}>
      <header class="stack tight">
        <h2>Ordered</h2>
        <span class="soft">Our reference: {order.order}</span>
        <span>{sentWords(order, zone, now.value)}</span>
      </header>
      {order.answers.map((answer) => (
        <div key={answer.command} class="stack tight">
          <strong>
            {answer.said_by ?? order.supplier} said, {moment(answer.at, zone, now.value)}
          </strong>
          <ul>
            {answerWords(answer, zone, now.value).map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </div>
      ))}
      {order.answers.some(comesShort) && (
        <Link class="touch" to="/deadlines">
          What is lacking now, and the ways out
        </Link>
      )}
      <div class="row">
        <Opens figure="Send it" title={`Send it to ${order.supplier}`}>
          {isChanged && (
            <p>
              <strong>What was changed on the screen is not on it yet.</strong>
            </p>
          )}
          <Send order={order} doing={doing} />
        </Opens>
        {mayGive("record_confirmation") && (
          <Opens figure="What they said" title={`What ${order.supplier} said`}>
            <RecordAnswer order={order} prices={prices} zone={zone} doing={doing} />
          </Opens>
        )}
        {mayGive("cancel_order") && (
          <Opens figure="Cancel it" title="Cancel the order">
            <CancelIt order={order} doing={doing} />
          </Opens>
        )}
      </div>
    </section>
  );
}

/** Whether the supplier said that something does not come as it was ordered. */
function comesShort({ lines }: OrderRow["answers"][number]): boolean {
  return lines.some(({ packs, ordered }) => packs < ordered);
}
