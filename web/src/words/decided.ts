import type { Command } from "../door/command";
import { many, money } from "./amounts";
import { sentence } from "./menus";
import { inWords } from "./time";

/** What a decision is about, in words; empty where only its own screen can say. */
export function about({ kind, body }: Pick<Command, "kind" | "body">): string {
  const said = body as Record<string, unknown>;
  if (typeof said.service === "string") return inWords(said.service);
  if (kind === "propose") {
    return placeOf((body as BodyOf<"propose">).service);
  }
  const named = said.supplier ?? said.order ?? said.recipe ?? said.item;
  return typeof named === "string" ? plainly(named) : "";
}

function placeOf({ date, meal, table }: BodyOf<"propose">["service"]): string {
  return inWords([date, meal, table].map((part) => part.toLowerCase()).join("/"));
}

type BodyOf<K extends Command["kind"]> = Extract<Command, { kind: K }>["body"];

/** What was decided, a part a line. */
export function decided(command: Pick<Command, "kind" | "body">): string[] {
  const { kind, body } = command as Command;
  switch (kind) {
    case "settle":
      return [sentence(body.answer)];
    case "change_covers":
      return [many(Number(body.covers), "cover")];
    case "move_service":
      return [`To ${placeOf(body.to)}`];
    case "confirm":
      return [
        ...(body.covers == null ? [] : [many(Number(body.covers), "cover")]),
        ...body.dishes.map(dishSaid),
      ];
    case "propose":
      return body.courses.map(
        ({ course, dishes }) => `${sentence(course)}: ${dishes.map(proposed).join(" or ")}`,
      );
    case "take_off":
    case "call_off_delivery":
    case "cancel_order":
    case "release":
    case "withdraw_invoice":
      return [`Reason: ${body.reason}`];
    case "place_order":
    case "amend_order":
      return [
        ...body.lines.map(({ item, pack, packs }) => `${packs} x ${pack} ${plainly(item)}`),
        ...(body.free ?? []).map(({ words, amount }) => [amount, words].filter(Boolean).join(" ")),
      ];
    case "send_order":
      return [`To ${body.to_whom}`];
    case "record_confirmation":
      return [
        ...body.lines.map(answerSaid),
        ...(body.delivery ? [`Comes ${body.delivery.slice(0, 10)}`] : []),
      ];
    case "set_budget":
      return [body.amount ? money(body.amount) : "No budget"];
    case "approve_recipe":
      return [body.approved === false ? "May not be chosen" : "May be chosen"];
    case "record_invoice":
      return [`Number ${body.number} of ${body.date}, ${money(body.total)}`];
    case "settle_invoice":
      return body.differences.map(({ agreed }) =>
        agreed === "paid" ? "A difference is paid as it is" : "A credit is asked for",
      );
    case "record_credit":
      return body.amount
        ? [`${money(body.amount)} credited, note ${body.note}`]
        : [`Written off: ${body.reason}`];
    default:
      return [];
  }
}

function answerSaid(line: BodyOf<"record_confirmation">["lines"][number]): string {
  const comes = line.packs == null ? "all" : line.packs === 0 ? "none" : String(line.packs);
  const price = line.price ? `, at ${money(line.price)}` : "";
  return `${plainly(line.item)}: ${comes} of it comes${price}`;
}

type Chosen = BodyOf<"confirm">["dishes"][number];

function dishSaid({ dish, variant, portions }: Chosen): string {
  const name = variant ? `${plainly(dish)}, ${variant}` : plainly(dish);
  return portions == null ? name : `${name}, ${many(Number(portions), "portion")}`;
}

function proposed(dish: BodyOf<"propose">["courses"][number]["dishes"][number]): string {
  if (typeof dish === "string") return plainly(dish);
  return plainly(String((dish as { dish: string }).dish));
}

/** A name, or the id that was made of one. */
function plainly(name: string): string {
  const isId = name === name.toLowerCase() && name.includes("-") && !name.includes(" ");
  return sentence(isId ? name.replaceAll("-", " ") : name);
}
