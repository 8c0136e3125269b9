import { useSignal } from "@preact/signals";
import { isGiven } from "../../door/command";
import { useReport } from "../../door/reports";
import type { DishRow } from "../../door/rows";
import { mayGive } from "../../door/session";
import { Button } from "../../parts/button";
import { useGiving } from "../../parts/giving";
import { Panel } from "../../parts/panel";
import { Said, Wrong } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { listed } from "../../words/amounts";
import { CAUTION } from "../../words/menus";
import { dayName, span } from "../../words/time";
import { seasonSaid } from "./season";

/** The key that opens a dish's recipe. */
export function RecipeKey({ dish, name }: { dish: string; name: string }) {
  const open = useSignal(false);
  return (
    <>
      <Button
        kind="quiet"
        onClick={() => {
          open.value = true;
        }}
      >
        Recipe<span class="unseen"> of {name}</span>
      </Button>
      {open.value && (
        <Panel
          title={name}
          onClose={() => {
            open.value = false;
          }}
        >
          <Recipe dish={dish} />
        </Panel>
      )}
    </>
  );
}

function Recipe({ dish }: { dish: string }) {
  const report = useReport<DishRow>("dishes");
  return (
    <Shown report={report} what="Fetching the recipe">
      {(rows) => {
        const row = rows.find(({ id }) => id === dish);
        return row ? <Written row={row} /> : <p>This recipe is no longer there.</p>;
      }}
    </Shown>
  );
}

function Written({ row }: { row: DishRow }) {
  return (
    <div class="stack">
      <p class="soft">
        For {row.yields} portions. {row.lead !== "PT0S" && `Begun ${span(row.lead)} before. `}
        {seasonSaid(row)}
      </p>
      <ul class="lines">
        {row.lines.map((line) => (
          <li key={line.item_id} class="row ends base">
            <span>{line.item}</span>
            <span class="figure">{line.amount}</span>
          </li>
        ))}
      </ul>
      {row.method && <p>{row.method}</p>}
      <dl class="facts">
        <Names title="Contains" names={row.contains} none="nothing of the list declared" />
        {row.may_contain.length > 0 && (
          <Names title="May contain" names={row.may_contain} none="" />
        )}
        {row.unknown.length > 0 && <Names title="Not known" names={row.unknown} none="" />}
        {row.last_served.map(({ table, date }) => (
          <div key={table}>
            <dt>Last, {table}</dt>
            <dd>{dayName(date, true)}</dd>
          </div>
        ))}
      </dl>
      <p class="soft">{CAUTION}</p>
      <Approval row={row} />
    </div>
  );
}

function Names({ title, names, none }: { title: string; names: string[]; none: string }) {
  return (
    <div>
      <dt>{title}</dt>
      <dd>{names.length > 0 ? listed(names) : none}</dd>
    </div>
  );
}

/** A dish new to the household is chosen only after its recipe was shown and approved. */
function Approval({ row }: { row: DishRow }) {
  const { busy, answer, decide } = useGiving();
  const given = answer.value;
  const approve = (approved: boolean) =>
    void decide("approve_recipe", { recipe: row.id, approved }, row.version);
  return (
    <div class="stack">
      {given?.problem && <Wrong problem={given.problem} />}
      {given && isGiven(given) && row.approved && (
        <Said kind="done">
          <strong>Approved: {row.dish} can be chosen.</strong>
          <Button disabled={busy.value} onClick={() => approve(false)}>
            Undo
          </Button>
        </Said>
      )}
      {!row.approved && mayGive("approve_recipe") && (
        <Button kind="main" disabled={busy.value} onClick={() => approve(true)}>
          Approve this recipe
        </Button>
      )}
    </div>
  );
}
