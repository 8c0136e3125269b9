import { now } from "../../../door/clock";
import { dayName, dayOf } from "../../../words/time";
import { looseUnit } from "./amounts";
import type { Area } from "./one_area";
import { batchWords, nameOf } from "./words";

/** The count sheet on paper: item, unit and an empty box; what the books have is not on it. */
export function Paper({ here: { asked, zone, row } }: { here: Area }) {
  return (
    <div class="on-paper" aria-hidden="true">
      <p>
        {dayName(dayOf(new Date(now.value), zone), true)}. Counted by: ______________________ at:
        ________
      </p>
      <table>
        <thead>
          <tr>
            <th>Item</th>
            <th>Counted in</th>
            <th>Found</th>
          </tr>
        </thead>
        <tbody>
          {asked.map((line) => (
            <tr key={line.key}>
              <td>
                {nameOf(line)} {batchWords(line)}
              </td>
              <td>{unitWords(line.item.unit)}</td>
              <td class="box" />
            </tr>
          ))}
          {row.levels.map(({ item, item_id }) => (
            <tr key={item_id}>
              <td>{item}</td>
              <td>plenty, low or out</td>
              <td class="box" />
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function unitWords(unit: string): string {
  return unit === "each" ? "pieces" : `${looseUnit(unit, true)} or ${unit}`;
}
