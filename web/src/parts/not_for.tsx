import { now } from "../door/clock";
import { mayRead } from "../door/session";
import { type Against, holdsSaid, safeSaid, whoSaid } from "../words/conflicts";
import { moment } from "../words/time";
import { Link } from "./router";

interface NotForProps {
  against: Against;
  /** The dish that they cannot eat, with its variant. */
  dish: string;
  /** The state of the menu; what is only proposed has its alternatives beside it. */
  state: string;
  zone: string;
  /** Of a dish that is on no menu: at which table, from when. */
  where?: string;
}

/** Who cannot eat a dish and why, what is safe for them, who agreed to it all the same, what is still asked. */
export function NotFor({ against, dish, state, zone, where }: NotForProps) {
  const { person, agreed, asked, safe } = against;
  return (
    <span class="warned">
      <strong>
        For {whoSaid(person)}
        {where && ` (${where})`}: not {dish}
      </strong>
      , {holdsSaid(against)}
      {agreed && (
        <>
          ;{" "}
          <strong>
            {agreed.by} agreed, {moment(agreed.at, zone, now.value)}: {agreed.answer}
          </strong>
        </>
      )}
      {(safe || !agreed) && `; ${safeSaid(against, state)}`}.{" "}
      {asked &&
        (mayRead("questions") ? (
          <Link to="/questions">Not settled: a question about it is open.</Link>
        ) : (
          "Not settled: a question about it is open."
        ))}
    </span>
  );
}
