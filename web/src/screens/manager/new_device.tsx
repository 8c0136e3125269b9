import "../../look/manager.css";
import { useSignal } from "@preact/signals";
import { now } from "../../door/clock";
import { attempted } from "../../door/problem";
import { ask } from "../../door/request";
import { me } from "../../door/session";
import type { Wire } from "../../door/wire";
import { Field } from "../../parts/fields";
import { Form } from "../../parts/form";
import { moment } from "../../words/time";

type Code = Wire["DeviceCode"];

/** A one-time code that makes a phone one of the house's, to be scanned with it or keyed in. */
export function NewDevice() {
  const name = useSignal("");
  const made = useSignal<{ name: string; code: Code } | null>(null);
  const make = () =>
    attempted(async () => {
      const named: Wire["NameDevice"] = { name: name.value.trim() };
      made.value = { ...named, code: await ask<Code>("/api/device-codes", named) };
      name.value = "";
    });
  return (
    <>
      <Form send={make} does="Make a code for it" kind="plain" class="card stack">
        <h3>A phone more</h3>
        <Field
          label="What it is called"
          value={name}
          hint="As everybody knows it: Back door phone."
          required
        />
      </Form>
      {made.value && <Shown name={made.value.name} code={made.value.code} />}
    </>
  );
}

function Shown({ name, code }: { name: string; code: Code }) {
  const zone = me.value?.house.zone ?? "UTC";
  return (
    <div class="said done stack">
      <span role="status">
        The code for {name}, shown this once: <strong class="figure big nowrap">{code.code}</strong>
      </span>
      <img
        class="scanned"
        alt={`The address with the code for ${name}, to be scanned with it`}
        src={`data:image/svg+xml,${encodeURIComponent(code.picture)}`}
      />
      <span>
        Scan this with the phone's camera. Or open <span class="address">{code.address}</span> on
        it, or “I have a code for this phone” at its door, and key the code in.
      </span>
      <span>It works once, until {moment(code.expires_at, zone, now.value)}.</span>
    </div>
  );
}
