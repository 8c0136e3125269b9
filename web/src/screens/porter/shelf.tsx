import { Place } from "../../parts/frame";

export function Shelf() {
  return <Place title="Shelf">{null}</Place>;
}
