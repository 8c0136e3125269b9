import { useSignal } from "@preact/signals";
import { enterByPin } from "../../door/device";
import { attempted, type Problem } from "../../door/problem";
import { Button } from "../../parts/button";
import { Wrong } from "../../parts/said";
import { PinPad } from "./pin_pad";
import { Titled } from "./titled";

interface ByPinProps {
  person: string;
  onEntered: () => void;
  onForgotten: () => void;
}

/** Come in by PIN. */
export function ByPin({ person, onEntered, onForgotten }: ByPinProps) {
  const pin = useSignal("");
  const busy = useSignal(false);
  const problem = useSignal<Problem | null>(null);
  const enter = async () => {
    busy.value = true;
    problem.value = null;
    problem.value = await attempted(() => enterByPin(person, pin.value));
    busy.value = false;
    pin.value = "";
    if (!problem.value) onEntered();
  };
  return (
    <>
      <Titled>{`${person}, your PIN`}</Titled>
      {problem.value && <Wrong problem={problem.value} />}
      <PinPad
        pin={pin}
        does={busy.value ? "Looking" : "Come in"}
        busy={busy.value}
        onDone={() => void enter()}
      />
      <Button kind="quiet" onClick={onForgotten}>
        Choose a new PIN
      </Button>
    </>
  );
}
