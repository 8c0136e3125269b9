import { useSignal } from "@preact/signals";
import type { OnePerson, ThisDevice } from "../../door/device";
import type { Problem } from "../../door/problem";
import { Button } from "../../parts/button";
import { Wrong } from "../../parts/said";
import { ByPin } from "./by_pin";
import { ChoosePin } from "./choose_pin";
import { Titled } from "./titled";

interface WhoseProps {
  of: ThisDevice;
  /** Who is asked first, where it is known who was in. */
  first: string | null;
  onEntered: () => void;
  /** Ask the house once more what this phone is to it. */
  onLook: () => void;
}

/** Whose hands a phone of the house is in: a name, and then the PIN. */
export function Whose({ of, first, onEntered, onLook }: WhoseProps) {
  const person = useSignal(of.people.find(({ name }) => name === first) ?? null);
  if (of.locked) {
    return (
      <div class="stack">
        <Wrong problem={locked(of)} />
        <Button onClick={onLook}>It was unlocked</Button>
      </div>
    );
  }
  if (!person.value) return <Names people={of.people} onChosen={(one) => (person.value = one)} />;
  return (
    <div class="stack">
      <Entering key={person.value.name} person={person.value} onEntered={onEntered} />
      <Button
        kind="quiet"
        onClick={() => {
          person.value = null;
        }}
      >
        Somebody else
      </Button>
    </div>
  );
}

function Names(props: { people: OnePerson[]; onChosen: (one: OnePerson) => void }) {
  return (
    <section class="stack">
      <Titled>Who has this phone?</Titled>
      <div class="large-keys">
        {props.people.map((one) => (
          <button
            key={one.name}
            type="button"
            class="button large"
            onClick={() => props.onChosen(one)}
          >
            {one.name}
          </button>
        ))}
      </div>
    </section>
  );
}

function Entering({ person, onEntered }: { person: OnePerson; onEntered: () => void }) {
  const choosing = useSignal(!person.has_pin);
  if (choosing.value) return <ChoosePin person={person.name} onEntered={onEntered} />;
  const forgotten = () => {
    choosing.value = true;
  };
  return <ByPin person={person.name} onEntered={onEntered} onForgotten={forgotten} />;
}

function locked({ device }: ThisDevice): Problem {
  return {
    type: "about:blank",
    title: "locked",
    status: 403,
    code: "device_locked",
    detail: `${device.name} is locked: too many wrong PINs in a row.`,
    todo: "A manager unlocks it on the screen People; until then come in with your password. What it holds is kept.",
  };
}
