import { useReport } from "../door/reports";
import type { HouseRow } from "../door/rows";

/** How food is thawed safely, where it is thawed: the cold room first, never at room temperature (SL3, SL5). */
export function Thawing() {
  const lives = useReport<HouseRow>("house").said.value?.rows[0]?.lives;
  return (
    <section class="stack tight small" aria-label="How it is thawed">
      <strong>In the cold room, in a dish that holds the drip: the first choice.</strong>
      <span>
        Where that is too slow: in a closed bag under cold running drinking water
        {lives && `, at ${lives.thaw_water} or colder`}, and it is used at once.
      </span>
      <span>
        Never at room temperature. What was thawed raw is not frozen again; what is cooked from it
        may be, once.
      </span>
      <span class="soft">
        Local codes come first.{lives && ` The water: ${lives.thaw_water_source}.`}
      </span>
    </section>
  );
}
