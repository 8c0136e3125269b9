import { describe, expect, it } from "vitest";
import type { OrderRow, PlanRow, PriceRow, ReorderRow, SupplierRow } from "../src/door/rows";
import {
  asLines,
  deliveriesOf,
  draftLines,
  isNews,
  mondayOf,
  sumsOf,
} from "../src/screens/manager/desk/draft";
import { answerWords, sentWords } from "../src/screens/manager/desk/order_words";
import { byDelivery } from "../src/screens/manager/desk/together";

const gbp = (minor: number) => ({ minor, currency: "GBP" });
const NOW = Date.parse("2027-03-10T07:00:00Z");
const FRIDAY = "2027-03-12T14:00:00Z";

const SUPPLIER = {
  id: "boat",
  supplier: "Boat",
  minimum: gbp(6_000),
  charge: gbp(1_850),
  coming: [
    { delivery: "2027-03-09T14:00:00Z", order_by: "2027-03-07T09:40:00Z" },
    { delivery: FRIDAY, order_by: "2027-03-10T09:40:00Z" },
  ],
} as unknown as SupplierRow;

const price = (item: string, minor: number) =>
  ({ supplier_id: "boat", item, pack: "case", pack_id: item, price: gbp(minor) }) as PriceRow;
const PRICES = [price("Wine", 3_780), price("Peas", 620), price("Salt", 90)];

const due = (item: string, packs: number) =>
  ({
    item,
    packs,
    pack: "case",
    supplier: "Boat",
    delivery: FRIDAY,
    order_by: "2027-03-10T09:40:00Z",
    alert: "open",
  }) as PlanRow;

const ordered = (lines: [string, number][], more: Partial<OrderRow> = {}) =>
  ({
    order: "boat/2027-03-12",
    supplier_id: "boat",
    state: "open",
    delivery: FRIDAY,
    lines: lines.map(([item, packs]) => ({ item, pack: "case", packs })),
    free: [],
    sent: [],
    ...more,
  }) as unknown as OrderRow;

function friday(plan: PlanRow[], orders: OrderRow[]) {
  const [of] = deliveriesOf(plan, orders, [SUPPLIER], NOW);
  if (!of) throw new Error("no delivery");
  return of;
}

const NOTHING = { packs: {}, free: [] };

describe("the order desk", () => {
  it("offers the next delivery of a supplier of which nothing is lacking", () => {
    const of = friday([], []);
    expect([of.delivery, of.due, of.orders]).toEqual([FRIDAY, [], []]);
  });

  it("PL2 puts what is lacking beside the order that is placed for the same delivery", () => {
    const found = deliveriesOf([due("Wine", 1)], [ordered([["Peas", 2]])], [SUPPLIER], NOW);
    expect(found).toHaveLength(1);
    expect(found[0]?.orders).toHaveLength(1);
    expect(found[0]?.due).toHaveLength(1);
  });

  it("leaves out orders that came or were cancelled", () => {
    expect(friday([], [ordered([["Peas", 2]], { state: "cancelled" })]).orders).toEqual([]);
  });

  it("PL1 adds what is lacking to what is ordered of the same pack, and orders neither twice", () => {
    const of = friday([due("Wine", 1)], [ordered([["Wine", 2]])]);
    const [line] = draftLines(of, PRICES, NOTHING);
    expect([line?.packs, line?.ordered, line?.proposed]).toEqual([3, 2, 3]);
  });

  it("keeps what a person changed before what is proposed, a line that was struck too", () => {
    const of = friday([due("Wine", 1), due("Peas", 1)], []);
    const changed = { packs: { "Wine|case": 0, "Peas|case": 4, "Salt|case": 1 }, free: [] };
    const lines = draftLines(of, PRICES, changed);
    expect(asLines(lines).map(({ item, packs }) => [item, packs])).toEqual([
      ["Peas", 4],
      ["Salt", 1],
    ]);
  });

  it("forgets a change of what the supplier does not sell any more", () => {
    const changed = { packs: { "Truffle|jar": 1 }, free: [] };
    expect(draftLines(friday([], []), PRICES, changed)).toEqual([]);
  });

  it("adds goods and charge, and says how far the goods are from the minimum", () => {
    const lines = draftLines(friday([due("Wine", 1)], []), PRICES, NOTHING);
    const sums = sumsOf(lines, [], SUPPLIER);
    expect(sums.goods).toEqual(gbp(3_780));
    expect(sums.total).toEqual(gbp(3_780 + 1_850));
    expect(sums.below).toEqual(gbp(6_000 - 3_780));
  });

  it("costs nothing where nothing is on it, and guesses no price of a line in words", () => {
    const none = sumsOf([], [], SUPPLIER);
    expect([none.total, none.below]).toEqual([gbp(0), gbp(0)]);
    const free = [{ words: "goat curd", amount: null, asked: null }];
    expect(sumsOf([], free, SUPPLIER)).toMatchObject({ charge: gbp(1_850), unpriced: 1 });
  });

  it("has something to be given only where the draft is not what is ordered", () => {
    const of = friday([], [ordered([["Peas", 2]])]);
    const same = draftLines(of, PRICES, NOTHING);
    expect(isNews(of, same, [])).toBe(false);
    const more = draftLines(of, PRICES, { packs: { "Peas|case": 3 }, free: [] });
    expect(isNews(of, more, [])).toBe(true);
    expect(isNews(of, same, [{ words: "matches", amount: null, asked: null }])).toBe(true);
  });

  it("reckons a week from its Monday (ISO 8601)", () => {
    expect(mondayOf("2027-03-10")).toBe("2027-03-08");
    expect(mondayOf("2027-03-08")).toBe("2027-03-08");
    expect(mondayOf("2027-03-14")).toBe("2027-03-08");
  });

  it("says how an order was sent, and that it was changed since", () => {
    const sent = { how: "telephone", to_whom: "the office", person: "Ada", at: FRIDAY };
    const standing = ordered([], { sent: [{ ...sent, stands: true }] as OrderRow["sent"] });
    expect(sentWords(standing, "UTC", NOW)).toContain("Sent by telephone to the office by Ada");
    const changed = ordered([], { sent: [{ ...sent, stands: false }] as OrderRow["sent"] });
    expect(sentWords(changed, "UTC", NOW)).toContain("send it again");
    expect(sentWords(ordered([]), "UTC", NOW)).toContain("Not sent yet");
  });

  it("says what is short, what comes instead and at what price", () => {
    const line = { item: "Peas", pack: "bag", ordered: 2, packs: 1, instead: "Beans" };
    const prices = { instead_packs: 1, price: gbp(700), price_before: gbp(620), words: null };
    const answer = { moved_from: FRIDAY, words: null, lines: [{ ...line, ...prices }] };
    const said = answerWords(answer as OrderRow["answers"][number], "UTC", NOW);
    expect(said[0]).toContain("does not come");
    expect(said[1]).toBe(
      "Peas, bag: 1 of 2 come, 1 × Beans instead, now 7.00 GBP, it was 6.20 GBP",
    );
  });
});

describe("the reorder report", () => {
  const row = (more: Partial<ReorderRow>) =>
    ({
      ...due("Wine", 1),
      cost: gbp(3_780),
      charge: gbp(1_850),
      minimum: gbp(6_000),
      order: null,
      ...more,
    }) as ReorderRow;

  it("puts lines together by delivery, with one charge and what the minimum lacks", () => {
    const [of] = byDelivery([row({}), row({ item: "Peas", cost: gbp(620) })]);
    expect(of).toMatchObject({ goods: 4_400, charge: 1_850, below: 1_600 });
    expect(of?.lines).toHaveLength(2);
  });

  it("PL2 asks no minimum of what is added to an order that is placed", () => {
    expect(byDelivery([row({ order: "boat/2027-03-12", charge: gbp(0) })])[0]?.below).toBe(0);
  });

  it("leaves out what cannot be had any more, and begins with the nearest deadline", () => {
    const late = row({ delivery: "2027-03-16T14:00:00Z", order_by: "2027-03-14T09:40:00Z" });
    const found = byDelivery([row({ alert: "missed" }), late, row({})]);
    expect(found.map(({ delivery }) => delivery)).toEqual([FRIDAY, late.delivery]);
  });
});
