import { Place } from "../../parts/frame";

export function Deadlines() {
  return <Place title="Deadlines">{null}</Place>;
}
