import { useSignal } from "@preact/signals";
import { isGiven } from "../../../door/command";
import { useReport } from "../../../door/reports";
import type { ItemRow, RecipeLine } from "../../../door/rows";
import { Button } from "../../../parts/button";
import { Field } from "../../../parts/fields";
import { useGiving } from "../../../parts/giving";
import { Panel } from "../../../parts/panel";
import { Wrong } from "../../../parts/said";
import { ItemNames, Pick, Text } from "./text";

/** The key that opens what may stand in for an item of a recipe. */
export function SubstitutesKey({ lines }: { lines: RecipeLine[] }) {
  const open = useSignal(false);
  const item = useSignal(lines[0]?.item ?? "");
  const line = lines.find((each) => each.item === item.value);
  return (
    <div>
      <Button
        kind="quiet"
        onClick={() => {
          open.value = true;
        }}
      >
        What may stand in for an ingredient
      </Button>
      {open.value && (
        <Panel
          title="What may stand in"
          onClose={() => {
            open.value = false;
          }}
        >
          <Pick
            label="Instead of"
            value={item.value}
            options={[...new Set(lines.map((each) => each.item))].map((name) => [name, name])}
            onPick={(picked) => {
              item.value = picked;
            }}
          />
          {line && <Substitutes key={line.item} line={line} />}
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
