import { now } from "../door/clock";
import type { Purchase, WayOut } from "../door/rows";
import { amount, listed } from "../words/amounts";
import { moment } from "../words/time";

const DISHES = 3;

/** What is left to do where no delivery can make it any more; each way is checked already. */
export function Ways({ ways, zone }: { ways: WayOut[]; zone: string }) {
  const single = ways.filter((way) => way.kind !== "another_dish");
  const others = new Map<string, string[]>();
  for (const way of ways) {
    if (way.kind === "another_dish") {
      others.set(way.dish, [...(others.get(way.dish) ?? []), way.instead]);
    }
  }
  if (ways.length === 0) return <p>No way is left: choose another dish, or use less of it.</p>;
  return (
    <ul class="stack tight">
      {single.map((way) => (
        <li key={JSON.stringify(way)}>· {said(way, zone)}</li>
      ))}
      {[...others].map(([dish, names]) => (
        <li key={dish}>
          · {listed(names.slice(0, DISHES))}
          {names.length > DISHES && ` or ${names.length - DISHES} more`} in place of {dish}
        </li>
      ))}
    </ul>
  );
}

function said(way: WayOut, zone: string): string {
  switch (way.kind) {
    case "another_supplier":
      return bought(way.buy, zone);
    case "substitute":
      return [
        `${amount(way.quantity)} ${way.item} in its place${way.when ? ` (${way.when})` : ""}`,
        ...(way.buy ? [bought(way.buy, zone)] : []),
      ].join("; ");
    case "variant":
      return [`${way.dish}, ${way.variant}`, ...way.buy.map((buy) => bought(buy, zone))].join("; ");
    case "another_dish":
      return `${way.instead} in place of ${way.dish}`;
    case "fewer_portions":
      return `${way.portions} portions of ${way.dish}`;
    case "shop_run": {
      const agreed = way.shops.length > 0 ? `: ${way.shops.join(" or ")}` : "";
      return `somebody goes to the shop for ${amount(way.quantity)} ${way.item}${agreed}`;
    }
  }
}

function bought(buy: Purchase, zone: string): string {
  const risk = buy.at_risk ? ", which may not come" : "";
  const by = moment(buy.order_by, zone, now.value);
  return `${buy.packs} × ${buy.pack} ${buy.item} of ${buy.supplier}, order by ${by}${risk}`;
}
