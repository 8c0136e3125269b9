import { useSignal } from "@preact/signals";
import { attempted } from "../../door/problem";
import { beFirst } from "../../door/session";
import { Choice, Field } from "../../parts/fields";
import { Form } from "../../parts/form";
import { OwnPassword } from "./own_password";

/** The first person of all, with the secret that the server printed; founds the house if need be. */
export function FirstManager({ founding }: { founding: boolean }) {
  const secret = useSignal("");
  const name = useSignal("");
  const password = useSignal("");
  const house = useSignal("");
  const zone = useSignal(Intl.DateTimeFormat().resolvedOptions().timeZone);
  const currency = useSignal("GBP");
  const system = useSignal("metric");
  const notice = useSignal("72 h");
  const enter = () => {
    const founded = {
      name: house.value.trim(),
      time_zone: zone.value.trim(),
      currency: currency.value.trim().toUpperCase(),
      unit_system: system.value,
      notice: notice.value.trim(),
    };
    return attempted(() =>
      beFirst(
        secret.value.trim(),
        name.value.trim(),
        password.value,
        founding ? founded : undefined,
      ),
    );
  };
  return (
    <Form send={enter} does={founding ? "Found the house" : "Come in"}>
      <p>
        {founding
          ? "There is no house here yet. Whoever started the server saw a secret there; with it you found the house and become its first manager."
          : "Nobody has a password here yet. Whoever started the server saw a secret there; with it a manager of this house comes in."}
      </p>
      <Field label="The server's secret" value={secret} autoComplete="off" required />
      {founding && (
        <>
          <Field label="Name of the house" value={house} autoComplete="off" required />
          <Field
            label="Time zone"
            value={zone}
            hint="As IANA names it, such as Europe/London. Every date of the house is of this zone."
            required
          />
          <Field
            label="Currency"
            value={currency}
            hint="Three letters, such as GBP or EUR."
            required
          />
          <Choice
            legend="Spoons and cups are"
            value={system}
            options={[
              { value: "metric", label: "metric" },
              { value: "imperial", label: "imperial" },
              { value: "us", label: "US" },
            ]}
          />
          <Field
            label="Notice"
            value={notice}
            hint="How long before a meal the household chooses its menu."
            required
          />
        </>
      )}
      <Field label="Your name" value={name} autoComplete="username" required />
      <OwnPassword value={password} />
    </Form>
  );
}
