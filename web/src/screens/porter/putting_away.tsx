import { signal } from "@preact/signals";
import { useReport } from "../../door/reports";
import type { HouseRow, ItemRow } from "../../door/rows";
import { Button } from "../../parts/button";
import { Place } from "../../parts/frame";
import { Link } from "../../parts/router";
import { Nothing } from "../../parts/said";
import { inSafeOrder, type ToPutAway, toPutAway } from "./put_away";
import { recorded } from "./recorded";

const DONE = "put away";

/** The commands of lines that were carried to their places; only this phone needs to know. */
const done = signal<string[]>(JSON.parse(sessionStorage.getItem(DONE) ?? "[]") as string[]);
const hot = signal(false);

function tick(command: string): void {
  const others = done.value.filter((each) => each !== command);
  done.value = others.length < done.value.length ? others : [command, ...others];
  sessionStorage.setItem(DONE, JSON.stringify(done.value));
}

/** What stands at the door, in the order in which it is carried to its place. */
export function PuttingAway() {
  const items = useReport<ItemRow>("items").said.value?.rows ?? [];
  const areas = useReport<HouseRow>("house").said.value?.rows[0]?.areas ?? [];
  const all = inSafeOrder(toPutAway(recorded.value, items, areas), hot.value);
  return (
    <Place title="Put away" under="What this phone took in, in the order in which it is carried">
      {all.length === 0 ? (
        <Nothing>Nothing was taken in on this phone.</Nothing>
      ) : (
        <>
          <div>
            <Button
              pressed={hot.value}
              onClick={() => {
                hot.value = !hot.value;
              }}
            >
              Hot day: frozen first
            </Button>
          </div>
          <ol class="lines narrow" aria-label="To be put away">
            {all.map((each) => (
              <One key={each.one.command} each={each} />
            ))}
          </ol>
        </>
      )}
      <p class="soft">
        Raw food stands below what is eaten as it is. Common practice; local codes and the house's
        own rules come first.
      </p>
      <p>
        <Link class="touch" to="/goods-in">
          To everything that is expected
        </Link>
      </p>
    </Place>
  );
}

function One({ each }: { each: ToPutAway }) {
  const { one, area, raw } = each;
  const isDone = done.value.includes(one.command);
  return (
    <li class="row ends">
      <span class="stack tight">
        <strong>{one.item}</strong>
        <span>
          {one.words} · {area ?? "place not known"}
          {raw && ", below what is eaten as it is"}
          {one.verdict === "hold" && ", apart: on hold for the chef"}
        </span>
      </span>
      <Button pressed={isDone} onClick={() => tick(one.command)}>
        {isDone ? "✓ put away" : "Put away"}
        <span class="unseen"> {one.item}</span>
      </Button>
    </li>
  );
}
