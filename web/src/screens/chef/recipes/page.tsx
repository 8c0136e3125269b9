import { useSignal } from "@preact/signals";
import { isGiven } from "../../../door/command";
import { useReport } from "../../../door/reports";
import type { RecipeRow } from "../../../door/rows";
import { mayGive } from "../../../door/session";
import { ActBar, Button } from "../../../parts/button";
import { Field } from "../../../parts/fields";
import { Place } from "../../../parts/frame";
import { useGiving } from "../../../parts/giving";
import { NotFor } from "../../../parts/not_for";
import { Link } from "../../../parts/router";
import { Said, Wrong } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { listed, many } from "../../../words/amounts";
import { CAUTION } from "../../../words/menus";
import { dayName, span } from "../../../words/time";
import { Cost } from "./cost";
import { Ingredients } from "./ingredients";
import { NameAndPlace } from "./name_and_place";
import { OnMenus } from "./on_menus";
import { WrittenAnew } from "./written";

/** One recipe, for as many covers as are asked for. */
export function RecipePage({ recipe }: { recipe: string }) {
  const covers = useSignal("");
  const many = /^[1-9]\d{0,2}$/.test(covers.value) && Number(covers.value) <= 500;
  const report = useReport<RecipeRow>("recipes", {
    recipe,
    ...(many ? { covers: covers.value } : {}),
  });
  const row = report.said.value?.rows[0];
  return (
    <>
      <Place title={row?.recipe ?? "Recipe"} under={row && under(row)}>
        {row?.kind === "dish" && (
          <Field
            label="For how many"
            value={covers}
            inputMode="numeric"
            hint={`The recipe is for ${row.yields}.`}
          />
        )}
        <Shown report={report} what="Fetching the recipe">
          {(rows, zone) => rows.map((each) => <Written key={each.id} row={each} zone={zone} />)}
        </Shown>
      </Place>
      {row && mayGive("write_recipe") && (
        <ActBar>
          <Link class="button main" to={`/recipes/${row.id}/change`}>
            Change this recipe
          </Link>
        </ActBar>
      )}
    </>
  );
}

function under(row: RecipeRow): string {
  const said = [row.kind === "dish" ? "Dish" : "Preparation"];
  if (row.lead !== "PT0S") said.push(`begun ${span(row.lead)} before`);
  if (row.life_days) said.push(`keeps ${many(row.life_days, "day")}`);
  if (row.full_recipes) said.push("only made whole");
  if (row.season_from) said.push(`in season ${row.season_from} to ${row.season_to}`);
  return said.join(", ");
}

function Written({ row, zone }: { row: RecipeRow; zone: string }) {
  return (
    <div class="columns">
      <div class="stack">
        <WrittenAnew row={row} />
        <Approval row={row} />
        <NameAndPlace row={row} />
        <Ingredients row={row} />
        {row.method && (
          <section class="stack tight" aria-label="Method">
            <h2>Method</h2>
            {row.method.split("\n").map((text, place) => (
              <p key={place}>{text}</p>
            ))}
          </section>
        )}
        <Variants row={row} />
      </div>
      <div class="stack">
        {row.picture && <Picture id={row.picture} of={row.recipe} />}
        <Contents row={row} zone={zone} />
        {row.cost && <Cost row={row} />}
        <OnMenus row={row} />
        <p>
          <a
            class="touch"
            href={`/api/recipes.pdf?recipe=${encodeURIComponent(row.id)}${row.kind === "dish" ? `&covers=${row.covers}` : ""}`}
            target="_blank"
            rel="noopener"
          >
            The recipe on paper (PDF)
          </a>
        </p>
      </div>
    </div>
  );
}

/** The picture; nothing where it has not arrived, or is not for whoever looks. */
function Picture({ id, of }: { id: string; of: string }) {
  const isThere = useSignal(true);
  return isThere.value ? (
    <img
      class="dish"
      src={`/api/pictures/${id}`}
      alt={of}
      onError={() => {
        isThere.value = false;
      }}
    />
  ) : null;
}

function Contents({ row, zone }: { row: RecipeRow; zone: string }) {
  return (
    <section class="stack tight" aria-label="What is in it">
      <h2>What is in it</h2>
      <dl class="facts">
        <Names title="Contains" names={row.contains} row={row} of="contains" />
        <Names title="May contain" names={row.may_contain} row={row} of="may_contain" />
        <Names title="Not known" names={row.unknown} row={row} of="unknown" />
      </dl>
      {row.conflicts?.map((each) => (
        <NotFor
          key={each.table + each.person + each.cannot_eat}
          against={each}
          dish={row.recipe}
          state="proposed"
          zone={zone}
          where={each.first ? `${each.table}, from ${dayName(each.first)}` : each.table}
        />
      ))}
      <p class="soft">{CAUTION} Traces can never be ruled out.</p>
    </section>
  );
}

interface NamesProps {
  title: string;
  names: string[];
  row: RecipeRow;
  of: "contains" | "may_contain" | "unknown";
}

/** Each allergen with the lines it comes from. */
function Names({ title, names, row, of }: NamesProps) {
  if (names.length === 0 && of !== "contains") return null;
  return (
    <div>
      <dt>{title}</dt>
      <dd>
        {names.length === 0 && "nothing of the list declared"}
        {of === "unknown" && listed(names)}
        {of !== "unknown" &&
          names.map((name) => (
            <span key={name} class="block">
              <strong>{name}</strong>
              {from(row, of, name)}
            </span>
          ))}
      </dd>
    </div>
  );
}

function from(row: RecipeRow, of: "contains" | "may_contain", name: string): string {
  const lines = row.lines.filter((line) => line[of].includes(name)).map(({ item }) => item);
  return lines.length > 0 ? `: ${listed(lines)}` : "";
}

function Variants({ row }: { row: RecipeRow }) {
  if (row.variants.length === 0) return null;
  return (
    <section class="stack tight" aria-label="Variants">
      <h2>Variants</h2>
      <ul class="lines">
        {row.variants.map((change) => (
          <li key={JSON.stringify(change)}>
            <strong>{change.variant}</strong>: {changed(change)}
          </li>
        ))}
      </ul>
    </section>
  );
}

function changed(change: RecipeRow["variants"][number]): string {
  const amount = change.amount ? `, ${change.amount}` : "";
  if (change.change === "leave_out") return `without ${change.ingredient}`;
  if (change.change === "add") return `with ${change.instead ?? change.ingredient}${amount}`;
  return change.instead
    ? `${change.instead} instead of ${change.ingredient}${amount}`
    : `${change.ingredient}${amount}`;
}

/** A dish new to the household, or become another one, is chosen only after it was approved. */
function Approval({ row }: { row: RecipeRow }) {
  const { busy, answer, decide } = useGiving();
  const given = answer.value;
  const approve = (approved: boolean) =>
    void decide("approve_recipe", { recipe: row.id, approved }, row.version);
  if (row.kind !== "dish") return null;
  return (
    <>
      {given?.problem && <Wrong problem={given.problem} />}
      {given && isGiven(given) && row.approved && (
        <Said kind="done">
          <strong>Approved: it can be chosen.</strong>
          <Button disabled={busy.value} onClick={() => approve(false)}>
            Undo
          </Button>
        </Said>
      )}
      {!row.approved && (
        <Said kind="due">
          <strong>Not approved: it cannot be chosen before the household has seen it.</strong>
          {mayGive("approve_recipe") && (
            <Button disabled={busy.value} onClick={() => approve(true)}>
              Approve this recipe
            </Button>
          )}
        </Said>
      )}
      {row.last_served.length > 0 && (
        <p class="soft">
          Last served:{" "}
          {row.last_served.map(({ table, date }) => `${table} ${dayName(date, true)}`).join(", ")}
        </p>
      )}
    </>
  );
}
