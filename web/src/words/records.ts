import type { Command } from "../door/command";

/** What each command is called where there is nothing better to say of it. */
const CALLED: Partial<Record<Command["kind"], string>> = {
  ask_for: "Asked for",
  bind_label: "Label put on",
  change_covers: "Covers changed",
  check_probe: "Probe checked",
  clean: "Cleaned",
  confirm: "Menu chosen",
  cool: "Cooling",
  correct: "Taken back",
  count: "Counted",
  decant: "Decanted",
  freeze: "Frozen",
  harvest: "Harvest",
  make: "Made",
  move: "Moved",
  open: "Opened",
  place_order: "Order placed",
  print_labels: "Labels printed",
  propose: "Menu proposed",
  receive: "Received",
  reserve_labels: "Numbers for labels",
  run_out: "We are out of",
  send_out: "Sent out",
  serve: "Served",
  set_level: "Level",
  settle: "Question answered",
  shop_run: "Shop run",
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
