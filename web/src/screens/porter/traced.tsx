import type { TraceEnd, TraceRow } from "../../door/rows";
import { me } from "../../door/session";
import { serviceName } from "../../parts/day_words";
import { Link } from "../../parts/router";
import { Nothing } from "../../parts/said";
import { amount } from "../../words/amounts";
import { dayName } from "../../words/time";

/** One step back and forward, and so on to the end; each link scanned or assumed. */
export function Traced({ rows, label }: { rows: TraceRow[]; label: string }) {
  const back = rows.filter(({ direction }) => direction === "back");
  const forward = rows.filter(({ direction }) => direction === "forward");
  const beside = rows.filter(({ direction }) => direction === "beside");
  return (
    <>
      <Way title="Where it came from" rows={back} label={label} />
      <Way title="Where it is and went" rows={forward} label={label} />
      {beside.length > 0 && (
        <section class="stack tight" aria-labelledby="beside">
          <h2 id="beside">Others of the same item</h2>
          <p class="row">
            {beside.map((row) => (
              <ToBatch key={row.batch} label={row.label} />
            ))}
          </p>
        </section>
      )}
    </>
  );
}

function ToBatch({ label }: { label: string }) {
  return (
    <Link class="touch figure" to={`/shelf/${encodeURIComponent(label)}`}>
      {label}
    </Link>
  );
}

function Way({ title, rows, label }: { title: string; rows: TraceRow[]; label: string }) {
  const ends = rows.flatMap((row) =>
    ("from" in row ? row.from : row.to).map((end) => ({ row, end })),
  );
  const mark = me.value?.house.decimal_mark ?? ".";
  return (
    <section class="stack tight" aria-label={title}>
      <h2>{title}</h2>
      {ends.length === 0 && <Nothing>Nothing is recorded.</Nothing>}
      <ul class="lines">
        {ends.map(({ row, end }) => (
          <li key={`${row.batch} ${JSON.stringify(end)}`}>
            <span class="row ends base">
              <span>
                {row.label !== label && `${row.item} ${row.label}: `}
                <End end={end} />
                {end.link === "assumed" && (
                  <span class="soft"> (assumed, first expired first out)</span>
                )}
              </span>
              <span class="figure">{amount(end.quantity, mark)}</span>
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

const ACCOUNTS: Record<string, string> = {
  opening_stock: "stood here when the books began",
  supplier: "delivered",
  garden: "from the garden",
  served: "served",
  waste: "thrown away",
  transit: "on its way to another house",
  count_difference: "missing at a count",
};

function End({ end }: { end: TraceEnd }) {
  if (end.label) return <ToBatch label={end.label} />;
  if (end.area) return <>{`stands in ${end.area}${end.on_hold ? ", on hold" : ""}`}</>;
  const words = ACCOUNTS[end.account ?? ""] ?? end.account ?? "";
  if (end.service) {
    return (
      <>{`${words}, ${serviceName(end.service)} ${dayName(end.service.split("/")[0] ?? "")}`}</>
    );
  }
  return <>{end.supplier ? `${words}, ${end.supplier}` : words}</>;
}
