import { useReport } from "../../../door/reports";
import type { ItemRow } from "../../../door/rows";
import { Place } from "../../../parts/frame";
import { below, go } from "../../../parts/router";
import { Wrong } from "../../../parts/said";
import { AskedFor } from "../../shared/asked_for";
import { Finder } from "../finder";
import { HeardWord } from "../heard";
import { useHearing } from "../hearing";
import { AskForMore } from "./ask_for_more";
import { RunOut } from "./run_out";

/** What the back door asks for: an item that has run out, other things in words, and what is asked for still. */
export function OutOf() {
  const items = useReport<ItemRow>("items").said.value?.rows;
  const [first] = below("/out-of");
  const item = first ? items?.find(({ id }) => id === first) : undefined;
  return (
    <>
      <HeardWord />
      {item ? <RunOut key={item.id} item={item} /> : <Find />}
    </>
  );
}

function Find() {
  const { problem, hear } = useHearing();
  const take = hear(({ matches: [match] }) => {
    if (!match) return { kind: "unknown", words: "Not known here" };
    go(`/out-of/${match.item_id}`);
    return { kind: "known", words: match.item };
  });
  return (
    <Place title="We are out of" under="The chef and the order desk hear of it">
      <div class="columns">
        <div class="stack">
          <Finder label="Code or item" onCode={take} onItem={({ id }) => go(`/out-of/${id}`)} />
          {problem.value && <Wrong problem={problem.value} />}
          <AskForMore />
        </div>
        <AskedFor />
      </div>
    </Place>
  );
}
