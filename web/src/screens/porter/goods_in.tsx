import { Place } from "../../parts/frame";

export function GoodsIn() {
  return <Place title="Goods in">{null}</Place>;
}
