import { useSignal } from "@preact/signals";
import { choosePin } from "../../door/device";
import { attempted } from "../../door/problem";
import { Button } from "../../parts/button";
import { Field } from "../../parts/fields";
import { Form } from "../../parts/form";
import { Said } from "../../parts/said";
import { fitsAsPin, LONGEST, SHORTEST } from "../../words/pin";
import { PinPad } from "./pin_pad";
import { Titled } from "./titled";

const UNFIT = `A PIN has ${SHORTEST} to ${LONGEST} figures, not all the same and not in a row. Choose another one.`;
const OTHER = "Those were two different PINs. Choose one once more.";

/** A PIN of one's own, keyed twice, and then who one is: by password or by a manager's code. */
export function ChoosePin({ person, onEntered }: { person: string; onEntered: () => void }) {
  const keyed = useSignal("");
  const chosen = useSignal("");
  const isSure = useSignal(false);
  const wrong = useSignal("");
  const begin = (why: string) => {
    wrong.value = why;
    chosen.value = "";
    keyed.value = "";
  };
  const choose = () => {
    const pin = keyed.value;
    if (!fitsAsPin(pin)) return begin(UNFIT);
    wrong.value = "";
    chosen.value = pin;
    keyed.value = "";
  };
  const confirm = () => {
    if (keyed.value !== chosen.value) return begin(OTHER);
    isSure.value = true;
  };
  if (isSure.value) return <Proven person={person} pin={chosen.value} onEntered={onEntered} />;
  const isFirst = chosen.value === "";
  return (
    <>
      <Titled>{isFirst ? `${person}, choose a PIN` : "The same PIN once more"}</Titled>
      {wrong.value && <Said kind="due">{wrong.value}</Said>}
      <p>With it you come in on the phones of the house.</p>
      <PinPad
        pin={keyed}
        does="Go on"
        busy={false}
        onDone={() => (chosen.value === "" ? choose() : confirm())}
      />
    </>
  );
}

function Proven(props: { person: string; pin: string; onEntered: () => void }) {
  const { person, pin, onEntered } = props;
  const hasCode = useSignal(false);
  const said = useSignal("");
  const send = async () => {
    const proof = hasCode.value ? { code: said.value.trim() } : { password: said.value };
    const problem = await attempted(() => choosePin(person, pin, proof));
    if (!problem) onEntered();
    return problem;
  };
  return (
    <>
      <Titled>{`${person}, this once`}</Titled>
      <Form send={send} does="Come in" doing="Looking">
        {hasCode.value ? (
          <Field
            label="The manager's code"
            value={said}
            autoComplete="one-time-code"
            required
            big
          />
        ) : (
          <Field
            label="Your password"
            value={said}
            type="password"
            autoComplete="current-password"
            enterKeyHint="done"
            required
          />
        )}
      </Form>
      <Button
        kind="quiet"
        onClick={() => {
          said.value = "";
          hasCode.value = !hasCode.value;
        }}
      >
        {hasCode.value ? "I have a password" : "I was given a code"}
      </Button>
    </>
  );
}
