import { now } from "../../door/clock";
import { useReport } from "../../door/reports";
import type { DishRow, PlanRow, StockRow } from "../../door/rows";
import { serviceName } from "../../parts/day_words";
import { amount, listed, money } from "../../words/amounts";
import { moved } from "../../words/numbers";
import { dayName, moment, span } from "../../words/time";
import { WhoIsThere } from "./spells";

/** What a line of the plan is made of, so that a person can check it with pencil and paper. */
export function Derived({ row, zone }: { row: PlanRow; zone: string }) {
  const stock = useReport<StockRow>("stock").said.value?.rows ?? [];
  const dishes = useReport<DishRow>("dishes").said.value?.rows ?? [];
  const made = row.derivation;
  if (!made) return <p>Nobody sells it in time; there is nothing to work out.</p>;
  const unit = row.net.unit;
  const of = (thousandths: number) => amount({ value: moved(String(thousandths), -3), unit });
  const label = (batch: string) =>
    stock.find((each) => each.batch === batch)?.label ?? "a delivery";
  const dish = (id: string) => dishes.find((each) => each.id === id)?.dish ?? id;
  const given = (parts: [string, number][]) =>
    parts.length ? listed(parts.map(([from, much]) => `${of(much)} of ${label(from)}`)) : "nothing";
  return (
    <div class="stack">
      {made.lines.length > 0 && (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keyboard
        <section class="scrolls" aria-label="What it is for" tabIndex={0}>
          <table>
            <thead>
              <tr>
                <th scope="col">For</th>
                <th scope="col">Wanted by</th>
                <th scope="col" class="figure">
                  Needed
                </th>
                <th scope="col">From what is there</th>
                <th scope="col" class="figure">
                  Lacking
                </th>
              </tr>
            </thead>
            <tbody>
              {made.lines.map((line) => (
                <tr key={line.need.id}>
                  <th scope="row">
                    {dish(line.need.dish)}, {dayName(line.need.service.slice(0, 10))}{" "}
                    {serviceName(line.need.service)}
                  </th>
                  <td>{moment(line.need.wanted_by, zone, now.value)}</td>
                  <td class="figure">{of(line.need.quantity)}</td>
                  <td>{given(line.given)}</td>
                  <td class="figure">{of(line.lacking)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      )}
      {made.par && (
        <p>
          Kept in: it would stand at {of(made.par.lowest)}{" "}
          {made.par.reckoned
            ? "when somebody is there"
            : `on ${moment(made.par.at, zone, now.value)}`}
          , below its floor of {of(made.par.floor)}; {of(made.par.quantity)}{" "}
          {made.par.reckoned ? "keep it above that, up to" : "bring it back to"}{" "}
          {of(made.par.order_up_to ?? made.par.floor)}.
        </p>
      )}
      {made.par?.reckoned && <WhoIsThere reckoned={made.par.reckoned} of={of} />}
      {made.used_up > 0 && <p>{of(made.used_up)} of it is for daily use, whatever the menu.</p>}
      <dl class="facts">
        <dt>To be bought</dt>
        <dd>
          {row.packs} × {row.pack} = {of(row.packs * made.pack_quantity)}
        </dd>
        {row.cost && (
          <>
            <dt>Price</dt>
            <dd>
              {row.packs} × {money({ minor: made.price, currency: row.cost.currency })} ={" "}
              {money(row.cost)}
            </dd>
          </>
        )}
        {made.at && (
          <>
            <dt>Comes</dt>
            <dd>{moment(made.at, zone, now.value)}</dd>
          </>
        )}
        {made.cutoff && (
          <>
            <dt>Cut-off</dt>
            <dd>{moment(made.cutoff, zone, now.value)}</dd>
          </>
        )}
        <dt>Order by</dt>
        <dd>
          {row.order_by && moment(row.order_by, zone, now.value)}: the cut-off less{" "}
          {span(made.send)} to send it
        </dd>
        <dt>Ready to use</dt>
        <dd>{span(made.margin)} after it comes</dd>
        {made.usable_until && (
          <>
            <dt>Usable until</dt>
            <dd>{moment(made.usable_until, zone, now.value)}, by its life on arrival</dd>
          </>
        )}
        <dt>Rules</dt>
        <dd>{made.rules.join(", ")}</dd>
      </dl>
    </div>
  );
}
