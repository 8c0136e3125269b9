import type { OrderRow } from "../../../door/rows";
import { money } from "../../../words/amounts";
import { moment } from "../../../words/time";

type Sent = OrderRow["sent"][number];
type Answer = OrderRow["answers"][number];

export const HOW: Record<Sent["how"], string> = {
  email: "by e-mail",
  telephone: "by telephone",
  message: "by message",
  by_hand: "by hand",
  portal: "on their own page",
};

/** How an order as it stands reached its supplier, or that it has not yet. */
export function sentWords(order: OrderRow, zone: string, now: number): string {
  const standing = order.sent.filter(({ stands }) => stands).at(-1);
  if (standing) {
    const { how, to_whom: whom, person, at } = standing;
    return `Sent ${HOW[how]} to ${whom} by ${person}, ${moment(at, zone, now)}.`;
  }
  if (order.standing) return "A standing order: they bring it without being asked.";
  return order.sent.length > 0
    ? "Changed since it was sent: send it again."
    : "Not sent yet, as far as anybody wrote down.";
}

/** What a supplier said of an order, a thing a line. */
export function answerWords(answer: Answer, zone: string, now: number): string[] {
  const moved = answer.moved_from
    ? [`It does not come ${moment(answer.moved_from, zone, now)}, as it was asked for.`]
    : [];
  return [...moved, ...answer.lines.map(lineWords), ...(answer.words ? [answer.words] : [])];
}

function lineWords(line: Answer["lines"][number]): string {
  const { ordered, packs } = line;
  const comes =
    packs === ordered ? "comes" : packs === 0 ? "does not come" : `${packs} of ${ordered} come`;
  const instead = line.instead ? `, ${line.instead_packs} × ${line.instead} instead` : "";
  const price = line.price ? `, now ${money(line.price)}, it was ${money(line.price_before)}` : "";
  return `${line.item}, ${line.pack}: ${comes}${instead}${price}`;
}
