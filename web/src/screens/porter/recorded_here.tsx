import { useSignal } from "@preact/signals";
import { useReport } from "../../door/reports";
import type { StockRow } from "../../door/rows";
import { Said } from "../../parts/said";
import { type Recorded, recorded } from "./recorded";
import { Told } from "./told";

/** What stands recorded of an order on this device, or without an order; with the way back. */
export function RecordedHere({ order }: { order: string | null }) {
  const ones = recorded.value.filter((one) => one.order === order);
  const undone = useSignal("");
  if (ones.length === 0 && !undone.value) return null;
  return (
    <section class="stack tight" aria-labelledby="recorded">
      <h2 id="recorded">{order ? "Recorded here" : "Came without an order"}</h2>
      {undone.value && <Said>{undone.value}</Said>}
      {ones.length > 0 && (
        <Ones
          ones={ones}
          onUndone={(words) => {
            undone.value = words;
          }}
        />
      )}
    </section>
  );
}

/** The stock is asked only where there is a label to be told. */
function Ones({ ones, onUndone }: { ones: Recorded[]; onUndone: (words: string) => void }) {
  const stock = useReport<StockRow>("stock").said.value?.rows ?? [];
  return (
    <>
      {ones.map((one) => (
        <Told
          key={one.command}
          one={one}
          batch={stock.find(({ batch }) => batch === one.batch)}
          onUndone={onUndone}
        />
      ))}
    </>
  );
}
