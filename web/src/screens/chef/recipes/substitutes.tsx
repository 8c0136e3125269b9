import { useSignal } from "@preact/signals";
import { isGiven } from "../../../door/command";
import { useReport } from "../../../door/reports";
import type { ItemRow, RecipeLine } from "../../../door/rows";
import { Button } from "../../../parts/button";
import { Field } from "../../../parts/fields";
import { useGiving } from "../../../parts/giving";
import { Panel } from "../../../parts/panel";
import { Wrong } from "../../../parts/said";
import { ItemNames, Text } from "./text";

/** The key that opens what may stand in for an item. */
export function SubstitutesKey({ line }: { line: RecipeLine }) {
  const open = useSignal(false);
  return (
    <div>
      <Button
        kind="quiet"
        onClick={() => {
          open.value = true;
        }}
      >
        Substitutes<span class="unseen"> for {line.item}</span>
      </Button>
      {open.value && (
        <Panel
          title={`Instead of ${line.item}`}
          onClose={() => {
            open.value = false;
          }}
        >
          <Substitutes line={line} />
        </Panel>
      )}
    </div>
  );
}

function Substitutes({ line }: { line: RecipeLine }) {
  const items = useReport<ItemRow>("items").said.value?.rows ?? [];
  const [substitute, ratio, when] = [useSignal(""), useSignal("1"), useSignal("")];
  const { busy, answer, decide } = useGiving();
  const known = line.substitutes.map((each) => ({
    ...{ substitute: each.item, ratio: each.ratio, when: each.when },
  }));
  const set = async (substitutes: typeof known) => {
    const given = await decide(
      "set_substitutes",
      { item: line.item, substitutes },
      line.item_version,
      line.item,
    );
    if (isGiven(given)) [substitute.value, ratio.value, when.value] = ["", "1", ""];
  };
  return (
    <div class="stack">
      <ul class="lines">
        {known.map((each) => (
          <li key={each.substitute} class="row ends">
            <span>
              {each.substitute}, {each.ratio} for 1{each.when && `; ${each.when}`}
            </span>
            <Button
              kind="quiet"
              disabled={busy.value}
              onClick={() => void set(known.filter((other) => other !== each))}
            >
              Take it out<span class="unseen">: {each.substitute}</span>
            </Button>
          </li>
        ))}
      </ul>
      <ItemNames id="substitute-items" items={items} />
      <Text
        label="What may stand in"
        value={substitute.value}
        list="substitute-items"
        onInput={(typed) => {
          substitute.value = typed;
        }}
      />
      <Field label="How much of it for one" value={ratio} inputMode="decimal" />
      <Field label="When it will do" value={when} hint="such as: cold sauces only" />
      {answer.value?.problem && <Wrong problem={answer.value.problem} />}
      {answer.value?.problem?.faults?.map((fault) => (
        <p key={JSON.stringify(fault)}>
          {fault.problem} {fault.todo}
        </p>
      ))}
      <Button
        kind="main"
        disabled={busy.value || substitute.value.trim() === ""}
        onClick={() =>
          void set([
            ...known,
            { substitute: substitute.value, ratio: ratio.value, when: when.value },
          ])
        }
      >
        Add it
      </Button>
    </div>
  );
}
