import { type Signal, useSignal } from "@preact/signals";
import type { StandingRow } from "../../../door/outbox/batch_parts";
import { useReport } from "../../../door/reports";
import type { HouseRow, ItemRow, PickRow } from "../../../door/rows";
import { me } from "../../../door/session";
import { Button } from "../../../parts/button";
import type { Doing } from "../../../parts/doing";
import { Field } from "../../../parts/fields";
import { Link } from "../../../parts/router";
import { Said as Told } from "../../../parts/said";
import { Thawing } from "../../../parts/thawing";
import { amount } from "../../../words/amounts";
import { actsOn, purposeWords, type Said } from "./acts";
import {
  type Area,
  isPlaced,
  type Motion,
  offered,
  type Purpose,
  placeFor,
  purposes,
} from "./offered";

interface MotionsProps {
  row: StandingRow;
  item: ItemRow;
  doing: Doing;
  /** The batch that the last motion made. */
  made: Signal<string>;
}

const CALLED: Record<Motion, string> = {
  open: "Open",
  take_out: "Take out",
  use: "Used",
  move: "Move",
  decant: "Decant",
  vacuum_pack: "Vacuum pack",
  freeze: "Freeze",
  thaw: "Thaw",
};

/** What is done with a batch where it stands: the amount and the place are proposed, one tap does it. */
export function Motions({ row, item, doing, made }: MotionsProps) {
  const areas = useReport<HouseRow>("house").said.value?.rows[0]?.areas ?? [];
  const picks = useReport<PickRow>("pick").said.value?.rows ?? [];
  const said: Said = {
    part: useSignal(""),
    pieces: useSignal(""),
    number: useSignal(""),
    wrong: useSignal(""),
  };
  const asked = useSignal<"move" | "take_out" | null>(null);
  const { motions, against } = offered(row);
  const acts = actsOn({ row, item, areas, doing, made, said });
  const then = async (act: Promise<boolean>) => {
    if (await act) asked.value = null;
  };
  const tap = (motion: Motion) => {
    if (motion === "move" || motion === "take_out") {
      asked.value = asked.value === motion ? null : motion;
    } else if (motion === "use") void then(acts.use());
    else void then(acts.treat(motion));
  };
  return (
    <section class="stack" aria-labelledby="motions">
      <h2 id="motions">What is done with it</h2>
      {against.map((words) => (
        <Told key={words} kind="due">
          <strong>{words}</strong>
        </Told>
      ))}
      {motions.includes("thaw") && <Thawing />}
      <HowMuch row={row} said={said} />
      <div class="motion-keys">
        {motions.map((motion) => (
          <Key
            key={motion}
            motion={motion}
            place={isPlaced(motion) ? (placeFor(motion, item, areas)?.area ?? null) : undefined}
            isAsked={asked.value === motion}
            isBusy={doing.busy.value}
            tap={() => tap(motion)}
          />
        ))}
        <Link class="button plain" to={`/waste/${encodeURIComponent(row.label || row.batch)}`}>
          To waste
        </Link>
      </div>
      {asked.value === "move" && (
        <WhereTo row={row} areas={areas} move={(area) => void then(acts.move(area))} />
      )}
      {asked.value === "take_out" && (
        <ForWhat
          all={purposes(picks, row.batch)}
          take={(purpose) => void then(acts.takeOut(purpose))}
        />
      )}
      <Field
        label="Numbered label, if one is put on what is opened, frozen, thawed or filled"
        value={said.number}
        enterKeyHint="done"
      />
      <p class="soft small">
        Local food rules and what you were taught come first. What is not sure goes to the chef.
      </p>
    </section>
  );
}

interface KeyProps {
  motion: Motion;
  /** Where it is put; null where no place fits; left out where the motion puts it nowhere else. */
  place: string | null | undefined;
  isAsked: boolean;
  isBusy: boolean;
  tap: () => void;
}

function Key({ motion, place, isAsked, isBusy, tap }: KeyProps) {
  const asks = motion === "move" || motion === "take_out";
  return (
    <Button
      {...(asks ? { pressed: isAsked } : {})}
      disabled={isBusy || place === null}
      onClick={tap}
    >
      {CALLED[motion]} {place && <span class="small">into the {place}</span>}
      {place === null && <span class="small">no place for it</span>}
    </Button>
  );
}

/** All of it is proposed; a part of it is typed. */
function HowMuch({ row, said }: { row: StandingRow; said: Said }) {
  const mark = me.value?.house.decimal_mark ?? ".";
  const unit = row.on_hand.unit === "each" ? "pieces" : row.on_hand.unit;
  const isPart = said.part.value.trim() !== "";
  return (
    <div class="stack tight">
      <p role="status">
        <strong>
          {isPart ? "Part of" : "All of it:"} {amount(row.on_hand, mark)}
        </strong>
      </p>
      <Field
        label={`Only a part of it, ${unit}`}
        value={said.part}
        inputMode="decimal"
        enterKeyHint="done"
        wrong={said.wrong.value}
      />
      {row.pieces && isPart && (
        <Field label="Pieces" value={said.pieces} inputMode="numeric" enterKeyHint="done" />
      )}
    </div>
  );
}

function WhereTo(props: { row: StandingRow; areas: Area[]; move: (area: Area) => void }) {
  const { row, areas, move } = props;
  const isFrozen = row.state === "frozen";
  const others = areas.filter(
    ({ area }) => !(area in row.areas) || Object.keys(row.areas).length > 1,
  );
  return (
    <section class="stack tight" aria-label="Where to">
      <h3>Where to</h3>
      <div class="motion-keys">
        {others.map((area) => (
          <Button key={area.id} onClick={() => move(area)}>
            {area.area}{" "}
            {(area.kind === "frozen") !== isFrozen && (
              <span class="small">{isFrozen ? "it thaws there" : "it is frozen there"}</span>
            )}
          </Button>
        ))}
      </div>
    </section>
  );
}

function ForWhat({ all, take }: { all: Purpose[]; take: (purpose: Purpose) => void }) {
  const mark = me.value?.house.decimal_mark ?? ".";
  return (
    <section class="stack tight" aria-label="For what">
      <h3>For what</h3>
      {all.length === 0 && <p class="soft">No meal of today or tomorrow is chosen.</p>}
      <div class="motion-keys">
        {all.map((one) => (
          <Button key={`${one.service} ${one.preparation ?? ""}`} onClick={() => take(one)}>
            {purposeWords(one)}{" "}
            {one.quantity && <span class="small">{amount(one.quantity, mark)}</span>}
          </Button>
        ))}
      </div>
    </section>
  );
}
