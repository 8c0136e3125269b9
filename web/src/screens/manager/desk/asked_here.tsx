import { useReport } from "../../../door/reports";
import type { AskedForRow, PriceRow } from "../../../door/rows";
import { Button } from "../../../parts/button";
import { type AddProps, addPack } from "./add_line";

/** Something asked for, and the pack that would bring it; null where it is ordered in words. */
interface Offered {
  row: AskedForRow;
  pack: PriceRow | null;
}

/** What the back door asks for and this supplier could bring, each one tap away from the order. */
export function AskedHere({ of, prices, lines, free, changing }: AddProps) {
  const rows = useReport<AskedForRow>("asked-for").said.value?.rows ?? [];
  const sold = prices.filter(({ supplier_id: id }) => id === of.supplierId);
  const offered = rows.flatMap((row): Offered[] => {
    if (row.item_id === null) {
      return free.some(({ asked }) => asked === row.asked) ? [] : [{ row, pack: null }];
    }
    const pack = sold.find(({ item_id: id }) => id === row.item_id);
    const isOn = lines.some((line) => line.item === row.item && line.packs > 0);
    return pack && !isOn ? [{ row, pack }] : [];
  });
  if (offered.length === 0) return null;
  return (
    <section class="stack narrow" aria-label="Asked for by the back door">
      <h2>Asked for by the back door</h2>
      {offered.map(({ row, pack }) => (
        <div key={row.asked} class="row ends">
          <span>
            <strong>{row.item ?? row.words}</strong> <span class="soft">{row.person}</span>
          </span>
          <Button
            onClick={() => {
              if (pack) addPack(lines, changing, pack);
              else {
                const line = { words: row.words ?? "", amount: null, asked: row.asked };
                changing.free.value = [...free, line];
              }
            }}
          >
            Add {pack ? pack.pack : "in words"}
            <span class="unseen">: {row.item ?? row.words}</span>
          </Button>
        </div>
      ))}
    </section>
  );
}
