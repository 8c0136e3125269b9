import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { now } from "../../../door/clock";
import { attempted, type Problem } from "../../../door/problem";
import { ask } from "../../../door/request";
import { me } from "../../../door/session";
import type { Wire } from "../../../door/wire";
import { Button } from "../../../parts/button";
import { Said, Wrong } from "../../../parts/said";
import { moment } from "../../../words/time";

/** A person's own calendar: an address for their calendar program, made, renewed and withdrawn here. */
export function MyCalendar() {
  const feed = useSignal<Wire["CalendarFeed"] | null>(null);
  const address = useSignal("");
  const problem = useSignal<Problem | null>(null);
  const busy = useSignal(false);
  const look = () =>
    ask<Wire["CalendarFeed"]>("/api/calendar").then((found) => {
      feed.value = found;
    });
  useEffect(() => {
    void attempted(look).then((found) => {
      problem.value = found;
    });
  }, []);
  const doing = async (what: () => Promise<unknown>) => {
    busy.value = true;
    problem.value = await attempted(async () => {
      await what();
      await look();
    });
    busy.value = false;
  };
  const make = () =>
    doing(async () => {
      const { path } = await ask<Wire["CalendarMade"]>("/api/calendar/make", {});
      address.value = location.origin + path;
    });
  const withdraw = () =>
    doing(async () => {
      await ask<void>("/api/calendar/withdraw", {});
      address.value = "";
    });
  const made = feed.value?.made_at;
  return (
    <section class="stack tight" aria-label="In your calendar">
      <h2>In your calendar</h2>
      <p>
        Every order-by as an appointment, with an alarm at the last call where your program rings
        for calendars of others.
      </p>
      {address.value && (
        <Said kind="done">
          <strong>Give this address to your calendar program. It is shown once.</strong>
          <span class="address">{address.value}</span>
          <span>Whoever has it reads the deadlines. It is yours alone.</span>
        </Said>
      )}
      {made && !address.value && <p>{since(feed.value)}</p>}
      {problem.value && <Wrong problem={problem.value} />}
      {feed.value && (
        <div class="row">
          <Button disabled={busy.value} onClick={() => void make()}>
            {made ? "Make a new address" : "Make an address"}
          </Button>
          {made && (
            <Button disabled={busy.value} onClick={() => void withdraw()}>
              Withdraw it
            </Button>
          )}
        </div>
      )}
    </section>
  );
}

function since(feed: Wire["CalendarFeed"] | null): string {
  const zone = me.value?.house.zone ?? "UTC";
  const said = (at: string) => moment(at, zone, now.value);
  const read = feed?.read_at ? `last read ${said(feed.read_at)}` : "not read yet";
  return `You have one since ${said(feed?.made_at ?? "")}, ${read}. A new address ends the old one.`;
}
