import { now } from "../../door/clock";
import { useReport } from "../../door/reports";
import type { CoverageRow, HouseRow, NeedDerivation } from "../../door/rows";
import { amount, isNothing } from "../../words/amounts";
import { exact } from "../../words/menus";
import { moment, until } from "../../words/time";

/** How the figure of one item of one dish comes about: how much is needed, from what, what is short. */
export function Derived({ row, zone }: { row: CoverageRow; zone: string }) {
  const house = useReport<HouseRow>("house").said.value?.rows[0];
  const at = (instant: string) => moment(instant, zone, now.value);
  return (
    <dl class="derived">
      <div>
        <dt>Needed {at(row.wanted_by)}</dt>
        <dd>
          {row.derivation ? (
            <Formula of={row.derivation} />
          ) : (
            <>goes into {row.for}, which is made for this dish: </>
          )}
          <strong class="nowrap">{exact(row.need)}</strong>
        </dd>
      </div>
      {!isNothing(row.taken_out) && (
        <div>
          <dt>Taken out already</dt>
          <dd>{exact(row.taken_out)}</dd>
        </div>
      )}
      {row.from.map((part, place) => (
        <div key={place}>
          <dt>{sourceSaid(part, house)}</dt>
          <dd>
            {exact(part.quantity)}
            {part.ready && <span class="soft"> there {at(part.ready)}</span>}
            {part.thaw_from && (
              <span class="soft"> out of the freezer by {at(part.thaw_from)}</span>
            )}
          </dd>
        </div>
      ))}
      {!isNothing(row.short) && (
        <div>
          <dt>Short</dt>
          <dd>
            <strong>{exact(row.short)}</strong>{" "}
            {row.mend_until && Date.parse(row.mend_until) > now.value ? (
              <>
                can be ordered until {at(row.mend_until)}{" "}
                <span class="soft">{until(row.mend_until, now.value)}</span>
              </>
            ) : (
              "cannot be bought any more for this meal"
            )}
          </dd>
        </div>
      )}
    </dl>
  );
}

function Formula({ of }: { of: NeedDerivation }) {
  return (
    <>
      {of.lines.map((line, place) => (
        <span key={place}>
          {place > 0 && "+ "}
          {line.scales
            ? `${of.portions} portions ÷ ${of.yields} that the recipe makes × ${exact(line.amount)} `
            : `${exact(line.amount)}, the same for any number of portions `}
          {line.trimming_yield !== "1" && `÷ ${line.trimming_yield} left after trimming `}
        </span>
      ))}
      {of.whole && "rounded up to whole pieces over the whole meal "}
      {"= "}
    </>
  );
}

type Part = CoverageRow["from"][number];

/** Where it comes from, in words: a batch by its label, a delivery by its supplier. */
export function sourceSaid(part: Part, house: HouseRow | undefined): string {
  if (part.label) return `From batch ${part.label}`;
  if (part.harvest) return "From the garden";
  if (part.delivery) {
    const id = part.delivery.split("/")[0];
    const supplier = house?.suppliers.find((each) => each.id === id)?.supplier;
    return supplier ? `From the delivery of ${supplier}` : "From a delivery";
  }
  return `To be made in the kitchen`;
}

/** `200 g from B-0102`, for a list in a sentence. */
export function partSaid(part: Part): string {
  const name =
    part.label ?? (part.delivery ? "a delivery" : part.harvest ? "the garden" : "making");
  return `${amount(part.quantity)} from ${name}`;
}
