import { Place } from "../../parts/frame";

export function People() {
  return <Place title="People">{null}</Place>;
}
