import { Place } from "../../parts/frame";

export function Book() {
  return <Place title="House book">{null}</Place>;
}
