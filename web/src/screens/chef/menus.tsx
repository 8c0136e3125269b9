import { below } from "../../parts/router";
import { MenuList } from "./menu_list";
import { Propose } from "./propose";
import { ProposeBlock } from "./propose_block";
import { ServicePlace } from "./service";

/** The menus of the next days, one of them, or a new one. */
export function Menus() {
  const parts = below("/menus");
  const [first, second, third, fourth] = parts;
  if (first === "propose") {
    const service = fourth ? `${second}/${third}/${fourth}` : null;
    return <Propose key={parts.join("/")} dish={service ? null : (second ?? null)} of={service} />;
  }
  if (first === "several-days") return <ProposeBlock />;
  if (first && second && third) {
    const id = `${first}/${second}/${third}`;
    return <ServicePlace key={id} id={id} />;
  }
  return <MenuList />;
}
