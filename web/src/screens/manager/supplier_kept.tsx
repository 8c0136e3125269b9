import { now } from "../../door/clock";
import type { SupplierRecordRow } from "../../door/rows";
import { me } from "../../door/session";
import { Opens } from "../../parts/opens";
import { many, money } from "../../words/amounts";
import { dayName, inDays, moment } from "../../words/time";

type Incident = SupplierRecordRow["incidents"][number];

/** How a supplier kept to what was ordered of them, drawn; each case it did not stands behind it. */
export function Kept({ row, zone }: { row: SupplierRecordRow; zone: string }) {
  const since = `Since ${dayName(row.since)}`;
  const said = [
    row.dearer > 0 && `${many(row.dearer, "price")} rose`,
    row.cheaper > 0 && `${many(row.cheaper, "price")} fell`,
    row.credits.count > 0 && owed(row, zone),
  ].filter(Boolean);
  return (
    <section class="stack tight" aria-label={`How ${row.supplier} kept to it`}>
      <h3>How they kept to it</h3>
      {row.deliveries === 0 ? (
        <p class="soft">{since} nothing of theirs came to the door.</p>
      ) : (
        <>
          <p class="soft small">
            {since}: {many(row.deliveries, "delivery", "deliveries")}
          </p>
          <Share part={row.in_time} of={row.deliveries} words="in time" />
          <Share part={row.whole} of={row.deliveries} words="whole" />
          <Share part={row.whole_lines} of={row.lines} words="lines whole" />
        </>
      )}
      {said.length > 0 && <p>{said.join(". ")}.</p>}
      {row.incidents.length > 0 && (
        <span>
          <Opens
            figure={many(row.incidents.length, "thing not kept", "things not kept")}
            title={row.supplier}
          >
            <ul class="lines">
              {row.incidents.map((each) => (
                <li key={`${each.at} ${each.what} ${each.item}`} class="stack tight">
                  <span>{inWords(each)}</span>
                  <span class="soft small">{moment(each.at, zone, now.value)}</span>
                </li>
              ))}
            </ul>
          </Opens>
        </span>
      )}
    </section>
  );
}

function Share({ part, of, words }: { part: number; of: number; words: string }) {
  return (
    <div class="stack tight">
      <span>
        {part} of {of} {words}
      </span>
      <svg
        class="kept-bar"
        viewBox={`0 0 ${Math.max(1, of)} 8`}
        preserveAspectRatio="none"
        aria-hidden="true"
      >
        <rect class="kept-all" width={of} height="8" />
        <rect class="kept-part" width={part} height="8" />
      </svg>
    </div>
  );
}

function owed({ credits }: SupplierRecordRow, zone: string): string {
  const mark = me.value?.house.decimal_mark ?? ".";
  const since = credits.oldest
    ? `, the oldest since ${moment(credits.oldest, zone, now.value)}`
    : "";
  return `${many(credits.count, "credit")} expected: ${money(credits.value, mark)}${since}`;
}

function inWords({ what, item, told }: Incident): string {
  switch (what) {
    case "late":
      return `Came ${told ? inDays(told) : ""} late`;
    case "short":
      return `${item} did not come whole`;
    case "warm":
      return `${item} came warm, ${told} °C`;
    case "refused":
      return `${item} was refused${told ? `: ${told}` : ""}`;
    case "short_dated":
      return `${item} came with ${told} days promised`;
    case "said_short":
      return `${item}: they had ${told} packs`;
    case "called_off":
      return `A delivery was called off${told ? `: ${told}` : ""}`;
  }
}
