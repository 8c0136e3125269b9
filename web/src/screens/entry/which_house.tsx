import type { Signal } from "@preact/signals";
import { Select } from "../../parts/fields";

/** Which of the houses that are served here; not asked where there is one. */
export function WhichHouse({ houses, value }: { houses: string[]; value: Signal<string> }) {
  if (houses.length < 2) return null;
  const options = houses.map((each) => ({ value: each, label: each }));
  return <Select label="House" value={value} options={options} />;
}
