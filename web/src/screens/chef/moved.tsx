import type { MenuRow } from "../../door/rows";
import { Button } from "../../parts/button";
import { Waiting } from "../../parts/said";
import { many } from "../../words/amounts";
import { dishName, sentence } from "../../words/menus";
import { StateMark } from "./state_mark";

interface MovedProps {
  seen: MenuRow;
  stands: MenuRow;
  onLook: () => void;
}

/** Somebody else decided meanwhile: what was on this screen, and what stands now, side by side. */
export function Moved({ seen, stands, onLook }: MovedProps) {
  return (
    <div class="said due" role="alert">
      <strong>This menu was changed meanwhile. Nothing of yours was written.</strong>
      <div class="versions">
        <Version title="What you decided on" row={seen} />
        {stands.version === seen.version ? (
          <Waiting what="Fetching what stands now" />
        ) : (
          <Version title="What stands now" row={stands} />
        )}
      </div>
      <Button kind="main" onClick={onLook}>
        Look again and decide anew
      </Button>
    </div>
  );
}

function Version({ title, row }: { title: string; row: MenuRow }) {
  return (
    <section class="stack tight" aria-label={title}>
      <h3>{title}</h3>
      <span class="row base">
        <StateMark state={row.state} /> {many(row.covers, "cover")}
      </span>
      <ul>
        {row.courses.map(({ course, dishes }) => (
          <li key={course}>
            <span class="soft">{sentence(course)}: </span>
            {dishes.map(dishName).join(row.state === "proposed" ? " or " : " and ")}
          </li>
        ))}
      </ul>
    </section>
  );
}
