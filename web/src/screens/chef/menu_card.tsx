import { now } from "../../door/clock";
import type { MenuRow } from "../../door/rows";
import { mayRead } from "../../door/session";
import { Link } from "../../parts/router";
import { listed, many } from "../../words/amounts";
import { dishName, earlyReason, serviceTitle, toChoose } from "../../words/menus";
import { clock } from "../../words/time";
import { AnswerWord } from "./answer_said";
import { ChooseBy } from "./choose_by";
import { StandingMark, StateMark } from "./state_mark";

/** One meal of one table in the list of the days. */
export function MenuCard({ row, zone }: { row: MenuRow; zone: string }) {
  return (
    <li>
      <Link to={`/menus/${row.service}`}>
        <span class="stack tight">
          <span>
            <span class="figure">{clock(row.at, zone)}</span>{" "}
            <strong>{serviceTitle(row.meal, row.table)}</strong>{" "}
            <span class="nowrap">for {row.covers}</span>
          </span>
          <span class="row">
            <StateMark state={row.state} />
            {mayRead("coverage") && <Stands row={row} />}
          </span>
          {row.said && <strong>another number was said: {row.said.covers}</strong>}
          <span>{dishesOf(row)}</span>
          {row.state === "proposed" && <AnswerWord row={row} zone={zone} />}
          {row.state === "proposed" && <Choosing row={row} zone={zone} />}
        </span>
      </Link>
    </li>
  );
}

/** Alternatives of a proposed course stand with `or`; what was chosen stands together. */
function dishesOf(row: MenuRow): string {
  if (row.courses.length === 0) return "no dish";
  const word = row.state === "proposed" ? " or " : " and ";
  return row.courses.map(({ dishes }) => dishes.map(dishName).join(word)).join(" · ");
}

function Stands({ row }: { row: MenuRow }) {
  if (row.state !== "confirmed" && row.state !== "proposed") return null;
  return (
    <span class="row nowrap">
      <StandingMark stands={row.short > 0 ? "buy" : "covered"} />
      {row.short > 0 ? `${many(row.short, "item")} short` : "covered"}
    </span>
  );
}

function Choosing({ row, zone }: { row: MenuRow; zone: string }) {
  const { next, early, gone } = toChoose(row, now.value);
  const kitchen = mayRead("coverage");
  return (
    <span class="stack tight">
      {next && <ChooseBy at={next} notice={row.notice_by} zone={zone} />}
      {early.map((dish) => (
        <span key={dish.dish} class="early">
          <strong>earlier than usual: {dish.name}</strong>
          {kitchen && `, because ${earlyReason(dish)}`}
        </span>
      ))}
      {gone.length > 0 && (
        <span class="row">
          <StandingMark stands="gone" />
          no longer to be had: {listed(gone.map(dishName))}
        </span>
      )}
    </span>
  );
}
