import { useSignal } from "@preact/signals";
import { isGiven } from "../../door/command";
import type { MenuRow } from "../../door/rows";
import { mayRead } from "../../door/session";
import { Button } from "../../parts/button";
import { useGiving } from "../../parts/giving";
import { Panel } from "../../parts/panel";
import { Link } from "../../parts/router";
import { Answered } from "./answered";
import { useEffects } from "./effects";
import { EffectsShown } from "./effects_shown";
import { isWhole, Stepper } from "./stepper";

interface ChangeCoversProps {
  row: MenuRow;
  /** The number it begins with; left out: the one that stands. */
  to?: number | undefined;
  zone: string;
  onChanged: (was: number) => void;
  onClose: () => void;
}

/** More or fewer eat; what is decided is decided on what stood on the screen when this was opened. */
export function ChangeCovers({ row, to, zone, onChanged, onClose }: ChangeCoversProps) {
  const seen = useSignal(row);
  const covers = useSignal(String(to ?? row.covers));
  const { busy, answer, decide } = useGiving();
  const ready = isWhole(covers.value);
  const isOther = ready && Number(covers.value) !== row.covers && Number(covers.value) > 0;
  const weighs = isOther && row.state === "confirmed";
  const effects = useEffects(row.service, weighs ? { covers: covers.value.trim() } : null);
  const own = row.courses.flatMap(({ dishes }) => dishes).filter((dish) => dish.portions !== null);
  const change = async () => {
    const { service, version, covers: was } = seen.value;
    const body = { service, covers: Number(covers.value) };
    const given = await decide("change_covers", body, version);
    if (!isGiven(given)) return;
    onChanged(was);
    onClose();
  };
  return (
    <Panel title="Change covers" onClose={onClose}>
      <form
        class="stack"
        onSubmit={(event) => {
          event.preventDefault();
          if (ready) void change();
        }}
      >
        <Stepper label="Covers" value={covers} />
        {mayRead("presence") && (
          <p>
            Somebody comes, leaves or eats out?{" "}
            <Link class="touch" to="/who-is-here">
              Say it at Who is here
            </Link>
          </p>
        )}
        <p class="soft">
          {own.length > 0
            ? `Dishes with portions of their own keep them: ${own.map((dish) => `${dish.name} ${dish.portions}`).join(", ")}.`
            : "Every dish follows, and what it needs with it."}
        </p>
        {weighs && <EffectsShown effects={effects} zone={zone} />}
        {isOther && row.state === "proposed" && (
          <p class="soft">It is only proposed: nothing is set aside for it yet.</p>
        )}
        <Answered answer={answer} seen={seen.value} stands={row} onLook={onClose} />
        <Button kind="main" type="submit" disabled={!ready || busy.value}>
          {ready ? `It is for ${Number(covers.value)} now` : "How many eat?"}
        </Button>
      </form>
    </Panel>
  );
}
