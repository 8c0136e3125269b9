import { now } from "../../../door/clock";
import type { Reports } from "../../../door/rows";
import { mayGive } from "../../../door/session";
import { Button } from "../../../parts/button";
import type { Doing } from "../../../parts/doing";
import { dayName, dayOf, moment } from "../../../words/time";
import { lineOf, partOf, WEEKDAYS } from "./rota_lines";
import { type OneStay, stayWords } from "./stay_words";

type Told = Reports["presence"];

interface SaidProps {
  told: Told;
  zone: string;
  doing: Doing;
  /** A stay is to be changed. */
  onStay: (stay: OneStay) => void;
}

/** What was said of who is here, each with the way to say otherwise. */
export function Said({ told, zone, doing, onStay }: SaidProps) {
  if (told.stays.length + told.away.length + told.rotas.length === 0) {
    return <p class="soft">Nobody is said to come or go: every table is as usual.</p>;
  }
  return (
    <section class="stack tight" aria-label="Said">
      <h2>Who comes and goes</h2>
      <ul class="lines">
        {told.stays.map((each) => (
          <StayLine key={each.stay} stay={each} {...{ zone, doing, onStay }} />
        ))}
        {told.away.map((each) => (
          <OneAway key={each.away} away={each} zone={zone} doing={doing} />
        ))}
        {told.rotas.map((rota) =>
          rota.lines.map((line) => (
            <OneLine key={rota.table + JSON.stringify(line)} {...{ rota, line, zone, doing }} />
          )),
        )}
      </ul>
    </section>
  );
}

function By({ by, at, zone }: { by: string; at: string; zone: string }) {
  return (
    <span class="soft">
      Said by {by} {moment(at, zone, now.value)}
    </span>
  );
}

interface StayLineProps {
  stay: OneStay;
  zone: string;
  doing: Doing;
  onStay: (stay: OneStay) => void;
}

function StayLine({ stay, zone, doing, onStay }: StayLineProps) {
  const today = dayOf(new Date(now.value), zone);
  const isHere = stay.first <= today;
  const ends = isHere ? { last: today } : {};
  return (
    <li class="stack tight">
      <strong>
        {stay.who} ({stay.heads}), {stay.table}
      </strong>
      <span>{stayWords(stay)}</span>
      <By by={stay.said_by} at={stay.said_at} zone={zone} />
      {mayGive("end_stay") && (!stay.last || stay.last >= today) && (
        <div class="row">
          <Button onClick={() => onStay(stay)}>
            Change<span class="unseen"> {stay.who}</span>
          </Button>
          <Button
            disabled={doing.busy.value}
            onClick={() =>
              void doing.act("end_stay", { stay: stay.stay, ...ends }, stay.who, stay.version)
            }
          >
            {isHere ? "Leave today" : "Not coming"}
            <span class="unseen"> {stay.who}</span>
          </Button>
        </div>
      )}
    </li>
  );
}

interface OneAwayProps {
  away: Told["away"][number];
  zone: string;
  doing: Doing;
}

function OneAway({ away, zone, doing }: OneAwayProps) {
  const { version, said_by, said_at, ...said } = away;
  const days = away.last === away.first ? "" : ` to ${dayName(away.last)}`;
  return (
    <li class="stack tight">
      <strong>
        {away.who} ({away.heads}), {away.table}: eats elsewhere
      </strong>
      <span>
        {dayName(away.first)}
        {days}
        {away.meal ? `, ${away.meal}` : ", all meals"}
      </span>
      <By by={said_by} at={said_at} zone={zone} />
      {mayGive("say_away") && (
        <div>
          <Button
            disabled={doing.busy.value}
            onClick={() =>
              void doing.act(
                "say_away",
                { ...said, heads: 0 },
                `${away.who} eats here after all`,
                version,
              )
            }
          >
            Eats here after all<span class="unseen">: {away.who}</span>
          </Button>
        </div>
      )}
    </li>
  );
}

interface OneLineProps {
  rota: Told["rotas"][number];
  line: Told["rotas"][number]["lines"][number];
  zone: string;
  doing: Doing;
}

function OneLine({ rota, line, zone, doing }: OneLineProps) {
  const when = line.date ? dayName(line.date) : `Every ${WEEKDAYS[line.weekday ?? 0]}`;
  const others = rota.lines.filter((each) => each !== line).map(partOf);
  return (
    <li class="stack tight">
      <strong>
        {rota.table}, rota: {line.heads}
      </strong>
      <span>
        {when}, {line.meal ?? "every meal"}
      </span>
      <By by={rota.said_by} at={rota.said_at} zone={zone} />
      {mayGive("set_rota") && (
        <div>
          <Button
            disabled={doing.busy.value}
            onClick={() =>
              void doing.act(
                "set_rota",
                { table: rota.table, lines: others },
                `${lineOf(rota.table, line)} as usual again`,
                rota.version,
              )
            }
          >
            As usual again<span class="unseen">: {lineOf(rota.table, line)}</span>
          </Button>
        </div>
      )}
    </li>
  );
}
