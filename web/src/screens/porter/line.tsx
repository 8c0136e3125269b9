import { useMemo } from "preact/hooks";
import { useReport } from "../../door/reports";
import type { ExpectedRow, HouseRow, ItemRow } from "../../door/rows";
import { Place } from "../../parts/frame";
import { Link } from "../../parts/router";
import { Nothing, Waiting, Wrong } from "../../parts/said";
import { inHand } from "./in_hand";
import { cameInstead } from "./instead";
import { factsOf } from "./line_facts";
import { LineForm } from "./line_form";

interface LineProps {
  /** The order it came with; null where nobody ordered it. */
  order: string | null;
  /** The item, and where it was ordered its pack, as they stand in the path. */
  of: string[];
}

/** One line at the door: how much, what date, how warm, and what is to become of it. */
export function Line({ order, of }: LineProps) {
  const [item = "", ...pack] = of;
  const expected = useReport<ExpectedRow>("expected");
  const items = useReport<ItemRow>("items");
  const house = useReport<HouseRow>("house");
  // what the code said, and what it came instead of, is taken up once, when the line opens
  const [hand, instead] = useMemo(() => {
    const said = [inHand.value, cameInstead.value] as const;
    inHand.value = null;
    cameInstead.value = null;
    return said;
  }, []);
  const isThere = [expected, items, house].every((report) => report.said.value !== null);
  // as it was when the line opened: a report that moves does not move the hand
  const facts = useMemo(
    () =>
      isThere
        ? factsOf({
            order,
            item,
            pack: pack.join("/"),
            orders: expected.said.value?.rows ?? [],
            items: items.said.value?.rows ?? [],
            house: house.said.value?.rows[0] ?? null,
            zone: house.said.value?.zone ?? "UTC",
          })
        : null,
    [isThere],
  );
  const wrong = expected.problem.value ?? items.problem.value ?? house.problem.value;
  if (!facts) {
    return (
      <Place title="A line">
        {wrong ? <Wrong problem={wrong} /> : <Waiting what="Looking at the order" />}
      </Place>
    );
  }
  if (facts === "gone") {
    return (
      <Place title="A line">
        <Nothing>There is no such line. It may have been received already.</Nothing>
        <Link class="touch" to={order ? `/goods-in/${order}` : "/goods-in"}>
          Back
        </Link>
      </Place>
    );
  }
  return <LineForm facts={facts} hand={hand} instead={instead} />;
}
