import { type Signal, useSignal } from "@preact/signals";
import type { Problem } from "../../../door/problem";
import { useReport } from "../../../door/reports";
import type { HouseRow, ItemRow } from "../../../door/rows";
import { BegunBefore } from "../../../parts/begun";
import { ActBar, Button } from "../../../parts/button";
import { useDoing } from "../../../parts/doing";
import { Done } from "../../../parts/done";
import { useDraft } from "../../../parts/draft";
import { Field } from "../../../parts/fields";
import { Place } from "../../../parts/frame";
import { useInHand } from "../../../parts/in_hand";
import { Waiting, Wrong } from "../../../parts/said";
import { Finder } from "../finder";
import { HeardWord } from "../heard";
import { useHearing } from "../hearing";
import { carried, type InHand } from "../in_hand";
import { factsOf } from "../line_facts";
import { PicturesKey } from "../pictures_key";
import { AddBought } from "./add_bought";
import type { Bought } from "./bought";
import { type RunState, useRecordingRun, useRun } from "./recording_run";

/** Somebody went to the shop: the shop, what was paid, the receipt, and what was bought that matters. */
export function ShopRun() {
  const house = useReport<HouseRow>("house");
  const items = useReport<ItemRow>("items");
  const problem = house.problem.value ?? items.problem.value;
  const [row, rows] = [house.said.value?.rows[0], items.said.value?.rows];
  if (row && rows) return <Run house={row} items={rows} />;
  return (
    <Place title="Shop run">
      {problem ? <Wrong problem={problem} /> : <Waiting what="Looking at the house" />}
    </Place>
  );
}

interface Adding {
  item: string;
  hand: InHand | null;
}

function Run({ house, items }: { house: HouseRow; items: ItemRow[] }) {
  const run = useRun();
  const draft = useDraft("/shop", run.draft, run.pictures, false);
  const adding = useSignal<Adding | null>(null);
  useInHand();
  const doing = useDoing("/shop");
  const recording = useRecordingRun(run, doing, draft);
  if (adding.value) {
    const { item, hand } = adding.value;
    const asked = { order: null, item, pack: "", orders: [], items, house, zone: house.zone };
    const facts = factsOf(asked);
    const back = () => {
      adding.value = null;
      scrollTo(0, 0);
    };
    if (facts !== "gone") {
      const add = (one: Bought) => {
        run.draft.lines.value = [...run.draft.lines.value, one];
        back();
      };
      return <AddBought facts={facts} hand={hand} onAdd={add} onBack={back} />;
    }
  }
  return (
    <>
      <HeardWord />
      <Place title="Shop run" under="Which shop, what was paid, and what of it matters">
        <Done doing={doing} />
        <BegunBefore draft={draft} />
        <form
          id="shop-run"
          class="narrow stack line"
          onSubmit={(event) => {
            event.preventDefault();
            void recording.record();
          }}
        >
          <fieldset class="stack" disabled={doing.busy.value}>
            <legend class="unseen">The shop run</legend>
            <WhichShop shop={run.draft.shop} shops={house.shops} />
            <Field
              label={`Paid in all, ${house.currency}`}
              value={run.draft.total}
              inputMode="decimal"
              enterKeyHint="done"
              big
            />
            <section class="stack tight" aria-labelledby="receipt">
              <span class="legend" id="receipt">
                The receipt
              </span>
              <PicturesKey taken={run.pictures} of="Receipt" />
            </section>
          </fieldset>
        </form>
        <WhatWasBought run={run} adding={adding} />
        <Hindrance lacks={recording.lacks.value} problem={recording.problem.value} />
      </Place>
      <ActBar>
        <Button kind="main" type="submit" form="shop-run" disabled={doing.busy.value}>
          Record the shop run
        </Button>
      </ActBar>
    </>
  );
}

function Hindrance({ lacks, problem }: { lacks: string | null; problem: Problem | null }) {
  if (problem) return <Wrong problem={problem} />;
  if (!lacks) return null;
  return (
    <div class="said wrong" role="alert">
      <strong>{lacks}</strong>
    </div>
  );
}

/** A shop that somebody went to before is one tap; any other is typed. */
function WhichShop({ shop, shops }: { shop: Signal<string>; shops: string[] }) {
  return (
    <section class="stack tight" aria-label="Which shop">
      {shops.length > 0 && (
        <div class="large-keys">
          {shops.map((each) => (
            <Button
              key={each}
              pressed={shop.value === each}
              onClick={() => {
                shop.value = each;
              }}
            >
              {each}
            </Button>
          ))}
        </div>
      )}
      <Field label={shops.length > 0 ? "Shop, or another one" : "Shop"} value={shop} />
    </section>
  );
}

function WhatWasBought({ run, adding }: { run: RunState; adding: Signal<Adding | null> }) {
  const { lines, others } = run.draft;
  const { problem, hear } = useHearing("Not read");
  const other = useSignal("");
  const add = (item: string, hand: InHand | null) => {
    adding.value = { item, hand };
    scrollTo(0, 0);
  };
  const take = hear((code) => {
    const [match] = code.matches;
    if (!match) return { kind: "unknown", words: "Type three letters" };
    add(match.item_id, carried(code, match.pack_id ?? null));
    return { kind: "known", words: match.item };
  });
  const note = () => {
    if (other.value.trim()) others.value = [...others.value, other.value.trim()];
    other.value = "";
  };
  return (
    <section class="narrow stack" aria-labelledby="bought-here">
      <h2 id="bought-here">What matters of it</h2>
      <Things lines={lines} others={others} />
      <Finder label="Code or item" onCode={take} onItem={({ id }) => add(id, null)} />
      {problem.value && <Wrong problem={problem.value} />}
      <form
        class="with-key"
        onSubmit={(event) => {
          event.preventDefault();
          note();
        }}
      >
        <Field label="Something else, in words" value={other} enterKeyHint="done" />
        <Button type="submit">Add it</Button>
      </form>
    </section>
  );
}

function Things({ lines, others }: { lines: Signal<Bought[]>; others: Signal<string[]> }) {
  if (lines.value.length + others.value.length === 0) return null;
  return (
    <ul class="lines" aria-label="Bought">
      {lines.value.map((line) => (
        <Thing
          key={line.part.batch}
          name={line.item}
          words={line.words}
          onAway={() => {
            lines.value = lines.value.filter((each) => each !== line);
          }}
        />
      ))}
      {others.value.map((words, place) => (
        <Thing
          key={`${place} ${words}`}
          name={words}
          words="no item of the house: told to the chef"
          onAway={() => {
            others.value = others.value.filter((_, each) => each !== place);
          }}
        />
      ))}
    </ul>
  );
}

function Thing(props: { name: string; words: string; onAway: () => void }) {
  return (
    <li class="row ends">
      <span class="stack tight">
        <strong>{props.name}</strong>
        <span class="small soft">{props.words}</span>
      </span>
      <Button onClick={props.onAway}>
        Take it away <span class="unseen">{props.name}</span>
      </Button>
    </li>
  );
}
