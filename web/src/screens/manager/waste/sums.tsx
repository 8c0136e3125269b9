import { now } from "../../../door/clock";
import type { WasteRow } from "../../../door/rows";
import { me } from "../../../door/session";
import { Opens } from "../../../parts/opens";
import { amount, many, money } from "../../../words/amounts";
import { moment } from "../../../words/time";
import { Photos } from "../../shared/photos";
import type { Sum } from "./lost";

/** What it came to, a line each; a figure opens to the records it is made of, of which nobody is named. */
export function Sums({ sums, of }: { sums: Sum[]; of: string }) {
  const currency = me.value?.house.currency ?? "";
  const mark = me.value?.house.decimal_mark ?? ".";
  return (
    <div class="scrolls lost-sums">
      <table>
        <thead>
          <tr>
            <th scope="col">{of}</th>
            <th scope="col">weight</th>
            <th scope="col">cost</th>
          </tr>
        </thead>
        <tbody>
          {sums.map((sum) => (
            <tr key={sum.name}>
              <th scope="row">{sum.name}</th>
              <td class="figure">{weightWords(sum, mark)}</td>
              <td class="figure">
                <Opens figure={money({ minor: sum.minor, currency }, mark)} title={sum.name}>
                  <Records rows={sum.rows} />
                </Opens>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

export function weightWords({ grams, unweighed, rows }: Sum, mark: string): string {
  if (unweighed === rows.length) return "not known";
  // the unit stays beside its figure
  const known = amount({ value: grams, unit: "g" }, mark).replace(" ", "\u00a0");
  return unweighed > 0 ? `${known} and ${many(unweighed, "line")} not known` : known;
}

function Records({ rows }: { rows: WasteRow[] }) {
  const zone = me.value?.house.zone ?? "UTC";
  const parts = rows.flatMap((row) => row.parts.map((part) => ({ row, part })));
  parts.sort((one, other) => other.part.at.localeCompare(one.part.at));
  return (
    <ul class="lines">
      {parts.map(({ row, part }) => (
        <li key={part.command} class="stack tight">
          <span class="row ends base">
            <span>
              {amount(part.quantity)} {row.item} <span class="soft small">{part.label}</span>
            </span>
            <span class="figure">{money(part.value)}</span>
          </span>
          <span class="soft small">
            {moment(part.at, zone, now.value)}: {row.reason}, from {row.area ?? "the kitchen"} to{" "}
            {row.destination}
          </span>
          {part.photos.length > 0 && <Photos ids={part.photos} of={row.item} />}
        </li>
      ))}
    </ul>
  );
}
