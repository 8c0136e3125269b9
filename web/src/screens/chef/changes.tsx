import { useSignal } from "@preact/signals";
import type { MenuRow } from "../../door/rows";
import { mayGive } from "../../door/session";
import { ActBar, Button } from "../../parts/button";
import { Choice, Field } from "../../parts/fields";
import { Panel } from "../../parts/panel";
import { Said, Wrong } from "../../parts/said";
import { many } from "../../words/amounts";
import { useGiving } from "./giving";
import { isWhole, Stepper } from "./stepper";

/** What can still be changed of a confirmed menu: how many eat, and whether it takes place. */
export function Changes({ row }: { row: MenuRow }) {
  const open = useSignal<"covers" | "off" | null>(null);
  const before = useSignal<number | null>(null);
  const { busy, answer, decide } = useGiving();
  const change = async (covers: number, base: number) => {
    const was = row.covers;
    const given = await decide("change_covers", { service: row.service, covers }, base);
    before.value = given.outcome === "applied" ? was : null;
  };
  return (
    <>
      {answer.value?.problem && <Wrong problem={answer.value.problem} />}
      {before.value !== null && before.value !== row.covers && (
        <Said kind="done">
          <strong>
            It is for {row.covers} now, not {before.value}. What it needs has followed.
          </strong>
          <Button
            disabled={busy.value}
            onClick={() => void change(before.value ?? row.covers, row.version)}
          >
            Undo: for {before.value} again
          </Button>
        </Said>
      )}
      <ActBar>
        {mayGive("change_covers") && (
          <Button
            kind="main"
            onClick={() => {
              open.value = "covers";
            }}
          >
            Change covers
          </Button>
        )}
        {mayGive("take_off") && (
          <Button
            onClick={() => {
              open.value = "off";
            }}
          >
            Take off
          </Button>
        )}
      </ActBar>
      {open.value === "covers" && (
        <Covers row={row} change={change} onClose={() => (open.value = null)} />
      )}
      {open.value === "off" && <Off row={row} onClose={() => (open.value = null)} />}
    </>
  );
}

interface CoversProps {
  row: MenuRow;
  change: (covers: number, base: number) => Promise<void>;
  onClose: () => void;
}

function Covers({ row, change, onClose }: CoversProps) {
  // what is decided is decided on what stood on the screen when it was opened
  const base = useSignal(row.version);
  const covers = useSignal(String(row.covers));
  const ready = isWhole(covers.value);
  const fixed = row.courses
    .flatMap(({ dishes }) => dishes)
    .filter((dish) => dish.portions !== null);
  return (
    <Panel title="Change covers" onClose={onClose}>
      <form
        class="stack"
        onSubmit={(event) => {
          event.preventDefault();
          if (ready) void change(Number(covers.value), base.value).then(onClose);
        }}
      >
        <Stepper label="Covers" value={covers} />
        <p class="soft">
          {fixed.length > 0
            ? `Dishes with portions of their own keep them: ${fixed.map((dish) => `${dish.name} ${dish.portions}`).join(", ")}.`
            : "Every dish follows, and what it needs with it."}
        </p>
        <Button kind="main" type="submit" disabled={!ready}>
          {ready ? `It is for ${Number(covers.value)} now` : "How many eat?"}
        </Button>
      </form>
    </Panel>
  );
}

const REASONS = ["they are out", "nobody is in", "another meal instead"];

function Off({ row, onClose }: { row: MenuRow; onClose: () => void }) {
  const base = useSignal(row.version);
  const chosen = useSignal(REASONS[0] ?? "");
  const other = useSignal("");
  const { busy, answer, decide } = useGiving();
  const reason = chosen.value || other.value.trim();
  const takeOff = async () => {
    await decide("take_off", { service: row.service, reason }, base.value);
  };
  return (
    <Panel title="Take this meal off" onClose={onClose}>
      <form
        class="stack"
        onSubmit={(event) => {
          event.preventDefault();
          void takeOff();
        }}
      >
        <Choice
          legend="Why"
          value={chosen}
          options={[
            ...REASONS.map((value) => ({ value, label: value })),
            { value: "", label: "something else" },
          ]}
        />
        {chosen.value === "" && <Field label="The reason" value={other} required />}
        <Said kind="due">
          <span>
            Nobody of the {many(row.covers, "cover")} eats then, and what was set aside for it is
            free for other menus at once. There is no way back by one key: to have the meal after
            all, propose it again and confirm it again, from what is free by then.
          </span>
        </Said>
        {answer.value?.problem && <Wrong problem={answer.value.problem} />}
        <Button kind="main" type="submit" disabled={busy.value || reason === ""}>
          Take it off
        </Button>
      </form>
    </Panel>
  );
}
