import type { UseFirstRow } from "../../door/rows";

/** A dish that could use a batch, and the menus of the next days on which it stands. */
export interface CouldUse {
  dish: string;
  services: string[];
}

/** Dish by dish, those on a menu first; a dish stands once, with its menus in the order of the days. */
export function couldUse(row: UseFirstRow): CouldUse[] {
  const found = new Map<string, Set<string>>();
  for (const { dish, service } of row.could_use) {
    const services = found.get(dish) ?? new Set();
    if (service) services.add(service);
    found.set(dish, services);
  }
  const uses = [...found].map(([dish, services]) => ({ dish, services: [...services].sort() }));
  return [...uses.filter(hasMenu), ...uses.filter((use) => !hasMenu(use))];
}

function hasMenu({ services }: CouldUse): boolean {
  return services.length > 0;
}
