import { useSignal } from "@preact/signals";
import { type Problem, problemOf } from "../../door/problem";
import { beFirst } from "../../door/session";
import { Button } from "../../parts/button";
import { Choice, Field } from "../../parts/fields";
import { Wrong } from "../../parts/said";

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
  const problem = useSignal<Problem | null>(null);
  const busy = useSignal(false);
  const enter = async () => {
    busy.value = true;
    problem.value = null;
    const founded = {
      name: house.value.trim(),
      time_zone: zone.value.trim(),
      currency: currency.value.trim().toUpperCase(),
      unit_system: system.value,
      notice: notice.value.trim(),
    };
    try {
      const said = founding ? founded : undefined;
      await beFirst(secret.value.trim(), name.value.trim(), password.value, said);
    } catch (error) {
      problem.value = problemOf(error);
    } finally {
      busy.value = false;
    }
  };
  return (
    <form
      class="stack"
      onSubmit={(event) => {
        event.preventDefault();
        void enter();
      }}
    >
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
      <Field
        label="A password of your own"
        value={password}
        type="password"
        autoComplete="new-password"
        hint="Ten letters or more; a few words in a row are good."
        required
      />
      {problem.value && <Wrong problem={problem.value} />}
      <Button kind="main" type="submit" disabled={busy.value}>
        {founding ? "Found the house" : "Come in"}
      </Button>
    </form>
  );
}
