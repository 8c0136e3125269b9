import { Place } from "../../parts/frame";

export function UseFirst() {
  return <Place title="Use first">{null}</Place>;
}
