import { Place } from "../../parts/frame";

export function Morning() {
  return <Place title="Morning sheet">{null}</Place>;
}
