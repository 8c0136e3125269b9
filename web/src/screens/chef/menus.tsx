import { Place } from "../../parts/frame";

export function Menus() {
  return <Place title="Menus">{null}</Place>;
}
