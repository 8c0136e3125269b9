import { Place } from "../../parts/frame";

export function Questions() {
  return <Place title="Questions">{null}</Place>;
}
