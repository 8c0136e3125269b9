import type { Command } from "../command";
import type { Entry } from "../store";

/**
 * What a decision is taken on. Where this device holds a decision of its own on the same thing that is not in
 * what was shown yet, it is that one: by its id, since nobody knows its version before the house has it (SY3).
 * Else it is the version that was shown.
 *
 * @param held everything that is held on this device, of an earlier life of it, too.
 */
export function baseOf(command: Command, device: string, held: Entry[]): Command["base"] {
  const thing = decidedOn(command);
  if (thing === null || typeof command.base === "string") return command.base;
  const own = held.filter((entry) => entry.device === device);
  const same = own.filter((entry) => decidedOn(entry.command) === thing).sort((a, b) => a.n - b.n);
  const last = same.findLast(({ answered }) => !answered || answered.answer.outcome === "applied");
  if (!last) return command.base;
  const isShown = last.answered && (command.base ?? 0) > versionBefore(last.command, same);
  return isShown ? command.base : last.id;
}

/** The version that the first of a chain of own decisions was taken on, and one more for each that followed. */
function versionBefore({ base }: Command, own: Entry[]): number {
  if (typeof base !== "string") return base ?? 0;
  const before = own.find(({ id }) => id === base);
  return before ? versionBefore(before.command, own) + 1 : 0;
}

/** The thing that a decision changes, of which there are versions; null for what is taken on nothing. */
export function decidedOn(command: Command): string | null {
  switch (command.kind) {
    case "propose":
    case "confirm":
    case "change_covers":
    case "move_service":
    case "take_off":
    case "swap_dish":
    case "pin":
      return `service ${serviceOf(command.body.service)}`;
    case "place_order":
    case "set_calendar":
    case "set_standing_order":
    case "set_terms":
      return `supplier ${command.body.supplier}`;
    case "amend_order":
    case "cancel_order":
    case "record_confirmation":
    case "send_order":
      return `order ${command.body.order}`;
    case "approve_recipe":
      return `recipe ${command.body.recipe}`;
    case "change_product":
      return `pack ${command.body.pack}`;
    case "settle_invoice":
    case "withdraw_invoice":
      return `invoice ${command.body.invoice}`;
    case "record_credit":
      return `credit ${command.body.credit}`;
    case "set_par":
      return `item ${command.body.item}`;
    case "settle":
      return `question ${command.body.question}`;
    case "tick_off":
      return `asked ${command.body.asked}`;
    default:
      return null;
  }
}

type Service = string | { date: string; meal: string; table: string };

/** `DATE/MEAL/TABLE`, as the house names it in its reports. */
function serviceOf(service: Service): string {
  if (typeof service === "string") return service;
  return [service.date, service.meal, service.table].map(slug).join("/");
}

/** As the house makes ids of names. */
function slug(name: string): string {
  const plain = name
    .toLowerCase()
    .normalize("NFKD")
    .replace(/[\u0300-\u036f]/g, "");
  const hyphened = plain.normalize("NFC").replace(/[^\p{L}\p{N}]+/gu, "-");
  return hyphened.replace(/^-|-$/g, "");
}
