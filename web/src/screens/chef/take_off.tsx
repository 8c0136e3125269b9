import { useSignal } from "@preact/signals";
import type { MenuRow } from "../../door/rows";
import { Button } from "../../parts/button";
import { Choice, Field } from "../../parts/fields";
import { useGiving } from "../../parts/giving";
import { Panel } from "../../parts/panel";
import { Said } from "../../parts/said";
import { many } from "../../words/amounts";
import { Answered } from "./answered";
import { useEffects } from "./effects";
import { EffectsShown } from "./effects_shown";

const REASONS = ["they are out", "nobody is in", "another meal instead"];

interface TakeOffProps {
  row: MenuRow;
  zone: string;
  onClose: () => void;
}

/** Nobody eats: why, and what becomes of what was set aside, said before it is done. */
export function TakeOff({ row, zone, onClose }: TakeOffProps) {
  const seen = useSignal(row);
  const chosen = useSignal(REASONS[0] ?? "");
  const other = useSignal("");
  const { busy, answer, decide } = useGiving();
  const effects = useEffects(row.service, { off: "yes" });
  const reason = chosen.value || other.value.trim();
  const takeOff = async () => {
    await decide("take_off", { service: row.service, reason }, seen.value.version);
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
        <EffectsShown effects={effects} zone={zone} />
        <Answered answer={answer} seen={seen.value} stands={row} onLook={onClose} />
        <Button kind="main" type="submit" disabled={busy.value || reason === ""}>
          Take it off
        </Button>
      </form>
    </Panel>
  );
}
