import { type Signal, useSignal } from "@preact/signals";
import { type BodyOf, isGiven, newId } from "../../../door/command";
import { useReport } from "../../../door/reports";
import type { HouseRow, PreparationRow } from "../../../door/rows";
import { isNumber, sign } from "../../../door/sums";
import { Button } from "../../../parts/button";
import type { Doing } from "../../../parts/doing";
import { Field, Select } from "../../../parts/fields";
import { Panel } from "../../../parts/panel";
import { amount } from "../../../words/amounts";
import { inUnit } from "../../../words/typed";
import { areReadable, asParts, type ByProduct, ByProducts } from "./by_products";

interface MadeOtherwiseProps {
  row: PreparationRow;
  doing: Doing;
  onClose: () => void;
}

interface Part {
  batch: string;
  words: string;
  unit: string;
  planned: string;
}

/** Another amount than planned, of other amounts, or put elsewhere. */
export function MadeOtherwise({ row, doing, onClose }: MadeOtherwiseProps) {
  const { unit } = row.quantity;
  const quantity = useSignal(row.quantity.value);
  const area = useSignal(row.area);
  const used = useSignal<Record<string, string>>({});
  const kept = useSignal<ByProduct[]>([]);
  const areas = useReport<HouseRow>("house").said.value?.rows[0]?.areas ?? [];
  const parts = partsOf(row);
  const exact = inUnit(quantity.value, unit);
  const typed = (part: Part) => inUnit(used.value[part.batch] ?? part.planned, part.unit);
  const isReady =
    exact !== null &&
    sign(exact) > 0 &&
    parts.every((part) => typed(part) !== null) &&
    areReadable(kept.value);
  const make = async () => {
    if (!isReady || exact === null) return;
    const body: BodyOf<"make"> = {
      recipe: row.recipe,
      quantity: { value: exact, unit },
      child: newId(),
      area: area.value,
    };
    if (kept.value.length > 0) body.by_products = asParts(kept.value);
    // what nobody changed is worked out by the house, as the recipe says
    if (Object.keys(used.value).length > 0 || kept.value.some(({ of }) => of)) {
      body.used = parts.flatMap((part) => {
        const value = typed(part) ?? "0";
        const { batch } = part;
        return sign(value) > 0 ? [{ batch, quantity: { value, unit: part.unit } }] : [];
      });
    }
    const answer = await doing.act("make", body, `${amount({ value: exact, unit })} ${row.item}`);
    if (isGiven(answer)) onClose();
  };
  return (
    <Panel title={row.preparation} onClose={onClose}>
      <form
        class="stack"
        onSubmit={(event) => {
          event.preventDefault();
          void make();
        }}
      >
        <Field label={`Made, ${unit}`} value={quantity} inputMode="decimal" big />
        <Select
          label="Goes to"
          value={area}
          options={areas.map(({ area: name }) => ({ value: name, label: name }))}
        />
        {parts.length > 0 && (
          <fieldset class="stack tight">
            <legend class="legend">What was used; left as it is, as the recipe says</legend>
            {parts.map((part) => (
              <Used key={part.batch} part={part} used={used} />
            ))}
          </fieldset>
        )}
        <ByProducts kept={kept} parts={parts} />
        <Button kind="main" type="submit" disabled={!isReady || doing.busy.value}>
          {exact && isNumber(exact)
            ? `Made ${amount({ value: exact, unit })}`
            : "How much was made?"}
        </Button>
      </form>
    </Panel>
  );
}

function partsOf(row: PreparationRow): Part[] {
  return row.lines.flatMap((line) =>
    line.from.flatMap((part) =>
      part.batch
        ? [
            {
              batch: part.batch,
              words: `${line.item} ${part.label ?? ""}`,
              unit: part.quantity.unit,
              planned: part.quantity.value,
            },
          ]
        : [],
    ),
  );
}

function Used({ part, used }: { part: Part; used: Signal<Record<string, string>> }) {
  const value = useSignal(part.planned);
  return (
    <Field
      label={`${part.words}, ${part.unit}`}
      value={value}
      inputMode="decimal"
      onChange={() => {
        used.value = { ...used.value, [part.batch]: value.value };
      }}
    />
  );
}
