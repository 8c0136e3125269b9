import { Button } from "../../parts/button";
import { useGiving } from "../../parts/giving";
import { Said, Wrong } from "../../parts/said";
import { listed } from "../../words/amounts";
import { type DriverLeft, driversLeft, strikeLeft } from "./driver_left";

/** That the driver of a delivery left, with what did not come, and the way back. */
export function DriverGone({ order }: { order: string }) {
  const one = driversLeft.value.find((each) => each.order === order);
  return one ? <Told one={one} /> : null;
}

function Told({ one }: { one: DriverLeft }) {
  const { busy, answer, decide } = useGiving();
  const undo = async () => {
    const body = { command: one.command, reason: "the driver had not left" };
    const given = await decide("correct", body);
    if (given.outcome === "refused" || given.outcome === "conflict") return;
    strikeLeft(one);
    // the button that had the focus is gone
    document.getElementById("place")?.focus();
  };
  return (
    <Said kind="due">
      <strong>The driver has left</strong>
      <span>
        Short: {listed(one.short)}. The chef hears of it as soon as the house does, and a credit is
        expected. What comes later is received here all the same.
      </span>
      {one.kept && <span>{one.kept} It is kept as it came, and a person is asked.</span>}
      {!one.kept && (
        <div>
          <Button onClick={() => void undo()} disabled={busy.value}>
            Undo
          </Button>
        </div>
      )}
      {answer.value?.problem && <Wrong problem={answer.value.problem} />}
    </Said>
  );
}
