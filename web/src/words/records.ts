import type { Command } from "../door/command";

/** What each command is called where there is nothing better to say of it. */
const CALLED: Partial<Record<Command["kind"], string>> = {
  amend_order: "Order changed",
  approve_recipe: "Recipe",
  ask_for: "Asked for",
  bind_label: "Label put on",
  cancel_order: "Order cancelled",
  change_covers: "Covers changed",
  check_probe: "Probe checked",
  clean: "Cleaned",
  close_delivery: "The driver left",
  confirm: "Menu chosen",
  cool: "Cooling",
  correct: "Taken back",
  count: "Counted",
  decant: "Decanted",
  freeze: "Frozen",
  harvest: "Harvest",
  import_book: "House book taken in",
  make: "Made",
  move: "Moved",
  move_service: "Meal moved",
  open: "Opened",
  pin: "Batch chosen for a menu",
  place_order: "Order placed",
  print_labels: "Labels printed",
  propose: "Menu proposed",
  receive: "Received",
  record_credit: "Credit",
  release: "Released",
  reserve_labels: "Numbers for labels",
  run_out: "We are out of",
  send_out: "Sent out",
  serve: "Served",
  set_calendar: "Calendar of a supplier",
  set_level: "Level",
  set_par: "Par level",
  settle: "Question answered",
  shop_run: "Shop run",
  swap_dish: "Dish changed",
  take_off: "Menu taken off",
  take_out: "Taken out",
  take_temperature: "Temperature",
  thaw: "Thawed",
  tick_off: "Seen to",
  use: "Used",
  vacuum_pack: "Vacuum packed",
  waste: "Wasted",
};

/** A command of a kind in a few words. */
export function recordWords(kind: Command["kind"], words: string): string {
  const called = CALLED[kind] ?? kind.replaceAll("_", " ");
  return words ? `${called}: ${words}` : called;
}
