import { now } from "../../door/clock";
import { useReport } from "../../door/reports";
import type { StandingOrderRow } from "../../door/rows";
import { mayGive } from "../../door/session";
import { Button } from "../../parts/button";
import { type Doing, useDoing } from "../../parts/doing";
import { Done } from "../../parts/done";
import { TimeLeft } from "../../parts/time_left";
import { dayName, moment } from "../../words/time";

type Coming = StandingOrderRow["coming"][number];
type Nobody = NonNullable<Coming["nobody"]>;

/** What comes of itself to an empty house: whom to tell by when, and writing down that they know. */
export function Stops() {
  const { said } = useReport<StandingOrderRow>("standing-orders");
  const doing = useDoing("stops");
  const zone = said.value?.zone;
  const found = (said.value?.rows ?? []).flatMap((of) =>
    of.coming.flatMap((each) => (each.nobody ? [{ of, each, nobody: each.nobody }] : [])),
  );
  if (!zone) return null;
  return (
    <>
      <Done doing={doing} />
      {found.length > 0 && (
        <section class="stack" aria-label="Comes to an empty house">
          <h2>Comes to an empty house</h2>
          <div class="orders">
            {found.map(({ of, each, nobody }) => (
              <One key={each.order} of={of} each={each} nobody={nobody} zone={zone} doing={doing} />
            ))}
          </div>
        </section>
      )}
    </>
  );
}

interface OneProps {
  of: StandingOrderRow;
  each: Coming;
  nobody: Nobody;
  zone: string;
  doing: Doing;
}

function One({ of, each, nobody, zone, doing }: OneProps) {
  const comes = moment(each.delivery, zone, now.value);
  const isLate = each.tell_by !== null && Date.parse(each.tell_by) < now.value;
  const told = () => {
    const reason = `nobody is in the house ${days(nobody)}; they know`;
    return doing.act("cancel_order", { order: each.order, reason }, of.supplier, each.version);
  };
  return (
    <article class="card stack" aria-label={`${of.supplier}, ${comes}`}>
      <header class="stack tight">
        <h3>{of.supplier}</h3>
        {each.tell_by && !isLate && (
          <TimeLeft at={each.tell_by} now={now.value} zone={zone} what="tell them by" />
        )}
        <p>
          {nobodyWords(nobody)} The standing order comes <strong>{comes}</strong>.
        </p>
        {isLate && (
          <p>
            <strong>
              It could be stopped until {moment(each.tell_by ?? "", zone, now.value)}.
            </strong>{" "}
            Telephone them, or have somebody there to take it in.
          </p>
        )}
        {of.order_words && <p class="soft">{of.order_words}</p>}
      </header>
      <div class="row">
        {of.email && (
          <a class="button" href={mail(of.email, comes, nobody)}>
            Write a mail<span class="unseen">: {of.supplier}</span>
          </a>
        )}
        {mayGive("cancel_order") && (
          <Button disabled={doing.busy.value} onClick={() => void told()}>
            They know: nothing comes
            <span class="unseen">
              : {of.supplier}, {comes}
            </span>
          </Button>
        )}
      </div>
    </article>
  );
}

function mail(to: string, comes: string, nobody: Nobody): string {
  const subject = encodeURIComponent(`Please bring nothing ${comes}`);
  const body = encodeURIComponent(
    `Nobody is in the house ${days(nobody)}. Please bring nothing of our standing order ${comes}.\n`,
  );
  return `mailto:${to}?subject=${subject}&body=${body}`;
}

/** `Nobody is in the house from Monday 3 May to Sunday 9 May.` */
export function nobodyWords(nobody: Nobody): string {
  return `Nobody is in the house ${days(nobody)}.`;
}

function days({ first, last }: Nobody): string {
  return first === last ? `on ${dayName(first)}` : `from ${dayName(first)} to ${dayName(last)}`;
}
