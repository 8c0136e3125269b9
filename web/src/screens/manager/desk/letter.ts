import { type Answer, newCommand } from "../../../door/command";
import { heard } from "../../../door/news";
import { type Problem, problemOf } from "../../../door/problem";
import { ask } from "../../../door/request";
import type { OrderRow } from "../../../door/rows";

/** Have the house send an order by e-mail itself; it writes down that it went. What is wrong, or null. */
export async function sendLetter(order: OrderRow, to: string): Promise<Problem | null> {
  const body = { order: order.order, how: "email" as const, to_whom: to };
  try {
    const command = newCommand("send_order", body, order.version);
    const answer = await ask<Answer>("/api/orders/letter", command);
    heard(answer.position);
    return answer.problem ?? null;
  } catch (error) {
    return problemOf(error);
  }
}
