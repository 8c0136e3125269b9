import { useReport } from "../../../door/reports";
import type { MenuRow, RecipeRow } from "../../../door/rows";
import { Link } from "../../../parts/router";
import { listed } from "../../../words/amounts";
import { serviceTitle } from "../../../words/menus";
import { dayName } from "../../../words/time";

/** The menus that are chosen and cooked by it: what each lacks of it now, and whether it follows a change. */
export function OnMenus({ row }: { row: RecipeRow }) {
  const menus = useReport<MenuRow>("menus").said.value?.rows ?? [];
  if (row.confirmed.length === 0 && row.used_in.length === 0) return null;
  return (
    <section class="stack tight" aria-label="Where it is used">
      <h2>Where it is used</h2>
      {row.used_in.length > 0 && <p>In {listed(row.used_in)}.</p>}
      <ul class="lines">
        {row.confirmed.map(({ service, begun }) => {
          const menu = menus.find((each) => each.service === service);
          return (
            <li key={service} class="stack tight">
              <Link class="touch" to={`/menus/${service}`}>
                {menu ? `${dayName(menu.date)}: ${serviceTitle(menu.meal, menu.table)}` : service}
              </Link>
              {begun && (
                <span>Begun: it keeps what it was begun by, and does not follow a change.</span>
              )}
              <Lacking menu={menu} dish={row.id} />
            </li>
          );
        })}
      </ul>
    </section>
  );
}

function Lacking({ menu, dish }: { menu: MenuRow | undefined; dish: string }) {
  const dishes = menu?.courses.flatMap((course) => course.dishes) ?? [];
  const short = dishes.filter((each) => each.dish === dish).flatMap((each) => each.short);
  return short.length > 0 ? <strong>Short of {listed([...new Set(short)])}.</strong> : null;
}
