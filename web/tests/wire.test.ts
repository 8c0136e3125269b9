import { expect, test } from "vitest";
import { newCommand } from "../src/door/command";
import type { DayMark, HouseRow, PlanRow, StockRow, Tells, WayOut } from "../src/door/rows";

/** Checked by the compiler: what is expected to be an error, and is none, does not compile. */
function compiles(row: StockRow, mark: DayMark, way: WayOut, plan: PlanRow): unknown[] {
  return [
    newCommand("settle", { question: "q", answer: "yes" }),
    // @ts-expect-error the answer is missing
    newCommand("settle", { question: "q" }),
    // @ts-expect-error nothing of that name belongs into it
    newCommand("settle", { question: "q", answer: "yes", colour: "white" }),
    // @ts-expect-error the body of another kind
    newCommand("waste", { question: "q", answer: "yes" }),
    // @ts-expect-error no such kind
    newCommand("paint", {}),
    // @ts-expect-error what a batch cost is not told to everybody
    row.value.minor,
    // @ts-expect-error a batch without a lot
    row.lot.length,
    // @ts-expect-error where no delivery can make it there is no order-by
    plan.order_by.length,
    mark.what === "dies" && mark.batch,
    // @ts-expect-error a delivery is of no batch
    mark.what === "delivery" && mark.batch,
    way.kind === "fewer_portions" && way.portions,
    // @ts-expect-error a run to the shop makes no portions
    way.kind === "shop_run" && way.portions,
    "house" satisfies Tells<HouseRow>,
    // @ts-expect-error the rows of another report
    "stock" satisfies Tells<HouseRow>,
  ];
}

test("a command is its kind with the body of that kind, made once", () => {
  const body = { item: "salt", level: "low" } as const;
  const command = newCommand("set_level", body, 3);
  expect(compiles).toBeTypeOf("function");
  expect(command).toMatchObject({ kind: "set_level", body, base: 3, person: "" });
  expect(newCommand("set_level", body)).not.toHaveProperty("base");
  expect(command.id).not.toBe(newCommand("set_level", body).id);
});
