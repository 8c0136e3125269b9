import { now } from "../../../door/clock";
import { useReport } from "../../../door/reports";
import type { CountDifferenceRow } from "../../../door/rows";
import { me } from "../../../door/session";
import { Nothing } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { amount, money } from "../../../words/amounts";
import { dayOf, near } from "../../../words/time";

/** What the counts of the last three months found otherwise than the books had it, the newest first. */
export function Found() {
  const report = useReport<CountDifferenceRow>("count-differences");
  return (
    <section class="stack tight" aria-labelledby="found">
      <h2 id="found">What counts found</h2>
      <Shown report={report} what="Looking at what was found">
        {(rows, zone) =>
          rows.length === 0 ? (
            <Nothing>In three months no count differed from the books.</Nothing>
          ) : (
            <>
              <Sums rows={rows} />
              <ul class="lines">
                {rows.map((row) => (
                  <li key={row.command + row.batch}>
                    <One row={row} zone={zone} />
                  </li>
                ))}
              </ul>
            </>
          )
        }
      </Shown>
    </section>
  );
}

function One({ row, zone }: { row: CountDifferenceRow; zone: string }) {
  const mark = me.value?.house.decimal_mark ?? ".";
  const less = row.difference.value.startsWith("-");
  const much = { ...row.difference, value: row.difference.value.replace("-", "") };
  const day = near(dayOf(row.at, zone), dayOf(new Date(now.value), zone));
  return (
    <span class="stack tight">
      <span class="row ends base">
        <strong>
          {row.item}, {row.label}
        </strong>
        <span class="figure">
          {amount(much, mark)} {less ? "less" : "more"}
        </span>
      </span>
      <span class="row ends base small">
        <span>{row.explained ?? whyWords(row.reason)}</span>
        {row.value && <span class="figure">{money(row.value, mark)}</span>}
      </span>
      <span class="small soft">
        {row.area}, {day}, {row.person}
      </span>
    </span>
  );
}

const UNSAID = "counted";

function whyWords(reason: string): string {
  return reason === UNSAID ? "nobody has said why" : reason;
}

/** What the differences come to by their reasons, the largest first. */
function Sums({ rows }: { rows: CountDifferenceRow[] }) {
  const sums = byReason(rows);
  if (sums.length === 0) return null;
  const mark = me.value?.house.decimal_mark ?? ".";
  return (
    <table>
      <tbody>
        {sums.map(([why, sum]) => (
          <tr key={why}>
            <th scope="row">{why}</th>
            <td class="figure">{money(sum, mark)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

type Sum = NonNullable<CountDifferenceRow["value"]>;

function byReason(rows: CountDifferenceRow[]): [string, Sum][] {
  const found = new Map<string, Sum>();
  for (const { explained, reason, value } of rows) {
    if (!value) continue;
    const why = explained ?? whyWords(reason);
    found.set(why, { ...value, minor: (found.get(why)?.minor ?? 0) + value.minor });
  }
  return [...found].sort(([, a], [, b]) => a.minor - b.minor);
}
