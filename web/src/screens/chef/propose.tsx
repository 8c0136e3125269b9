import { useReport } from "../../door/reports";
import type { DishRow, HouseRow, MenuRow } from "../../door/rows";
import { Place } from "../../parts/frame";
import { Waiting, Wrong } from "../../parts/said";
import { ProposeForm } from "./propose_form";

interface ProposeProps {
  /** A dish it begins with, by its id. */
  dish: string | null;
  /** The menu that is proposed otherwise, or again. */
  of: string | null;
}

/** A menu for one meal of one table, with alternatives in each course. */
export function Propose({ dish, of }: ProposeProps) {
  const house = useReport<HouseRow>("house");
  const menus = useReport<MenuRow>("menus");
  const dishes = useReport<DishRow>("dishes");
  const problem = house.problem.value ?? menus.problem.value ?? dishes.problem.value;
  const known = house.said.value?.rows[0];
  const rows = menus.said.value;
  const recipes = dishes.said.value?.rows;
  if (known && rows && recipes) {
    return (
      <ProposeForm
        house={known}
        menus={rows.rows}
        zone={rows.zone}
        dishes={recipes}
        first={recipes.find(({ id }) => id === dish) ?? null}
        of={rows.rows.find(({ service }) => service === of) ?? null}
      />
    );
  }
  return (
    <Place title="Propose a menu">
      {problem ? <Wrong problem={problem} /> : <Waiting what="Fetching tables and dishes" />}
    </Place>
  );
}
